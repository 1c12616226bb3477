// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace gasp {

/// This process in a file's name, as "<pid>-<start>". The start, in ticks since the machine came up, tells it
/// from a later process that was given the same number.
[[nodiscard]] std::string this_process();

/// Whether the process that put its name into `file_name`, at its beginning and before a '.', still runs.
/// Empty when there is no such name in it.
[[nodiscard]] std::optional<bool> is_running(std::string_view file_name);

}  // namespace gasp
