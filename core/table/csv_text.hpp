// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace gasp {

/// The columns, in their order; the first row names them.
inline constexpr std::array<std::string_view, 5> csv_columns{"sequence", "time_ms", "channel", "output",
                                                             "load"};

/// A name as it stands in a cell: with ' in front where a spreadsheet would take it for a formula, or where
/// it begins with ' itself, so that unguarded() gives it back exactly.
[[nodiscard]] std::string guarded(std::string_view name);
[[nodiscard]] std::string unguarded(std::string cell);

/// The most characters write_ms() writes.
inline constexpr std::size_t longest_ms = 24;
/// Writes a time that is not negative as milliseconds, "12.5", with as many decimals as it needs; the place
/// behind it.
[[nodiscard]] char* write_ms(char* place, Micros time);
/// Reads it. Empty: not a number without sign or exponent, more than 3 decimals, or over 24 h.
[[nodiscard]] std::optional<Micros> read_ms(std::string_view text);

}  // namespace gasp
