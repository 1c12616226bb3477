// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/read_whole_file.hpp"

#include <filesystem>
#include <fstream>
#include <system_error>

namespace gasp {

Result<std::string> read_whole_file(const std::string& path) {
    std::error_code error;
    std::string text;
    if (std::filesystem::is_regular_file(path, error)) {
        text.resize(std::filesystem::file_size(path, error));
        std::ifstream file(path, std::ios::binary);
        if (!error && file.read(text.data(), static_cast<std::streamsize>(text.size()))) {
            return text;
        }
    }
    return fail("there is no file of this name that can be read", path, "Check the name and the permissions");
}

}  // namespace gasp
