// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <string>
#include <string_view>

namespace gasp {

/// Text of unknown origin made fit for a terminal: control characters, marks that turn the direction of
/// writing, and bytes that are not UTF-8 become \xNN for each of their bytes.
[[nodiscard]] std::string printable(std::string_view text);

/// The same of each line of a text; what ends a line stays.
[[nodiscard]] std::string printable_lines(std::string_view text);

/// Writes to standard output: to a terminal as printable_lines, else, where a program reads it, as it is. A
/// reader that has gone away is no error.
[[nodiscard]] Result<void> write_to_standard_output(std::string_view whole);

/// One line on standard error: "gasp: <message>".
void say(std::string_view message);

}  // namespace gasp
