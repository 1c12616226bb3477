// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <string>

namespace gasp {

/// The bytes of a regular file.
[[nodiscard]] Result<std::string> read_whole_file(const std::string& path);

}  // namespace gasp
