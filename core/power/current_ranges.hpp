// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// Within what a current stays for a while, in amperes.
struct CurrentRange {
    double low = 0.0;
    double high = 0.0;
    bool operator==(const CurrentRange&) const = default;
};

/// A stretch of a curve in so many slices alike, as a drawing needs it; none of a slice outside 0 to
/// `length`. Requires: from < to, count above 0, a curve with points.
[[nodiscard]] std::vector<std::optional<CurrentRange>> current_ranges(const CurrentCurve& curve,
                                                                      Micros length, Micros from, Micros to,
                                                                      int count);

/// What of a current counts: from `above` on, and no more than `most` of that.
struct CurrentSlice {
    MicroAmps above = 0;
    MicroAmps most = 0;
};

/// The largest charge of that slice in any window of time, in microampere microseconds. The curve goes round:
/// the sequence may be run again at once.
[[nodiscard]] std::int64_t most_charge(const CurrentCurve& curve, Micros length, Micros window,
                                       const CurrentSlice& slice);

/// The longest the current stays above so many amperes. What is so at the end and again at the begin counts
/// as one stretch: the sequence may be run again at once.
[[nodiscard]] Micros longest_above(const CurrentCurve& curve, Micros length, double amps);

}  // namespace gasp
