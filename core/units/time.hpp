// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <chrono>
#include <string>
#include <string_view>

namespace gasp {

/// Every moment and length in a show: integer microseconds. Moments count from the start of their sequence.
using Micros = std::chrono::microseconds;

/// Milliseconds to the nearest microsecond, away from zero at the half.
[[nodiscard]] Micros from_ms(double ms);

/// Microseconds as a fraction of milliseconds; exact below 2^53 us.
[[nodiscard]] constexpr double to_ms(Micros time) {
    return static_cast<double>(time.count()) / 1000.0;
}
[[nodiscard]] constexpr double to_s(Micros time) {
    return static_cast<double>(time.count()) / 1e6;
}

/// Reads what people write for a time: "1.25", "1.25 s", "250 ms", "1:02.5", "400 us". A bare number is
/// seconds. Either sign is taken; the value is rounded to a microsecond.
/// Error: not a time, or beyond 24 h either way.
[[nodiscard]] Result<Micros> parse_time(std::string_view text);

/// A moment on the ruler, "0:07.420"; hours only where there are any. `decimals` is 0 to 6, rounded.
[[nodiscard]] std::string print_time(Micros time, int decimals = 3);

/// A length or shift in the unit that suits its size: "420 ms", "12.5 s", "2:05.000".
[[nodiscard]] std::string print_duration(Micros time);

}  // namespace gasp
