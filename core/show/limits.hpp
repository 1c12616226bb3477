// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/fields.hpp"
#include "core/show/sequence.hpp"

namespace gasp {

// What single values may be. Validity refuses what is outside, edits never make it.

inline constexpr double least_gain_db = -120.0;
inline constexpr double most_gain_db = 60.0;
inline constexpr double fastest_flashes_hz = 1000.0;
inline constexpr double least_duty_percent = 1.0;
inline constexpr double most_duty_percent = 99.0;

[[nodiscard]] inline bool rate_allowed(double hz) {
    return hz > 0 && hz <= fastest_flashes_hz;
}

[[nodiscard]] inline bool duty_allowed(double percent) {
    return percent >= least_duty_percent && percent <= most_duty_percent;
}

[[nodiscard]] inline bool flashes_allowed(const Flashes& flashes) {
    return rate_allowed(flashes.rate_hz) && duty_allowed(flashes.duty_percent);
}

/// A blank figure is allowed.
template <class T>
[[nodiscard]] bool figure_allowed(const FigureField<T>& field, const T& part) {
    const Figure& figure = part.*field.member;
    return !figure || (*figure >= field.least && *figure <= field.most);
}

}  // namespace gasp
