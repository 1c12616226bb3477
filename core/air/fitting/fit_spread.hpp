// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/band.hpp"

#include <array>
#include <span>

// Nobody outside this folder includes this.

namespace gasp {

/// What a time gains for each unit of the logarithm of each uncertain input's factor, ms.
using TimeSlopes = std::array<double, uncertain_inputs>;

/// A spread is that many standard deviations of the logarithm: 19 times in 20 (JCGM 100:2008, GUM, 6.3.3).
inline constexpr double deviations_in_spread = 2.0;

[[nodiscard]] double deviation_of_spread(double spread);
[[nodiscard]] double spread_of_deviation(double deviation);

/// How far off the inputs may be where nothing is measured, as standard deviations of their logarithms.
[[nodiscard]] std::array<double, uncertain_inputs> deviations_before();

struct FitSpread {
    std::array<double, uncertain_inputs> alone{};  ///< standard deviation of each input's logarithm
    /// The same, all lessened alike: added up as inputs that do not hang together they give the stroke times
    /// the spread they have. Timed strokes leave inputs that do hang together: more friction, if less
    /// throttled.
    std::array<double, uncertain_inputs> together{};
    std::array<double, 2> time_before_ms{};  ///< standard deviation of the model's time out and back
    std::array<double, 2> time_ms{};         ///< the same with the strokes known
};

/// `strokes` are the slopes of what was timed, each timing with a standard deviation of `reading_ms`; `ways`
/// those of the model's whole time out and back. Heat transfer and load count as unknown too, though no
/// factor of theirs is fitted. `misfit_ms` is how far the model stays off the mean of each way with the
/// factors found: it is no better than that, whatever the linear model says of its inputs.
[[nodiscard]] FitSpread fit_spread(std::span<const TimeSlopes> strokes, double reading_ms,
                                   const std::array<TimeSlopes, 2>& ways,
                                   const std::array<double, 2>& misfit_ms);

}  // namespace gasp
