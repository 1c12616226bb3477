// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/validity.hpp"

#include <algorithm>

namespace gasp {

bool stays_inside(std::string_view path) {
    const auto control = [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; };
    if (path.size() > 1 && path[1] == ':') {
        return false;
    }
    if (path.find('\\') != std::string_view::npos || std::ranges::any_of(path, control)) {
        return false;
    }
    for (std::size_t begin = 0; begin <= path.size();) {
        const std::size_t end = std::min(path.find('/', begin), path.size());
        const std::string_view part = path.substr(begin, end - begin);
        if (part.empty() || part == "." || part == "..") {
            return false;
        }
        begin = end + 1;
    }
    return true;
}

}  // namespace gasp
