// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/names.hpp"

#include <algorithm>

namespace gasp {

std::string next_mark_name(const Sequence& sequence) {
    for (std::size_t number = 1;; ++number) {
        std::string name = "Mark " + std::to_string(number);
        const bool taken = std::any_of(sequence.marks.begin(), sequence.marks.end(),
                                       [&name](const Mark& mark) { return mark.name == name; });
        if (!taken) {
            return name;
        }
    }
}

}  // namespace gasp
