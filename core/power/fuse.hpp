// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"

#include <optional>
#include <span>

namespace gasp {

// Fuses of low-voltage circuits. A fuse guards the wire behind it: its rating lies between 1.25 times what
// flows for long and what the wire may carry (NEC 210.20(A) and 240.4; the same rule for boats in ABYC E-11).

/// Ratings of flat blade fuses (ISO 8820-3; the list from memory), rising.
[[nodiscard]] std::span<const double> standard_fuses_a();

/// The least rating for what flows for long.
[[nodiscard]] constexpr double least_fuse_a(double continuous_a) {
    return 1.25 * continuous_a;
}

/// The smallest standard fuse that bears the continuous current and the pulse; none where the wire bears none
/// so large, or none is made.
[[nodiscard]] std::optional<double> fitting_fuse_a(double continuous_a, double pulse_a, double pulse_ms,
                                                   double wire_a);

/// Whether a blade fuse surely stays whole through one pulse: the shortest opening times of ISO 8820-3 (from
/// memory): 0.75 s at 1.35 times its rating, 0.15 s at twice, 40 ms at 3.5 times, 20 ms at 6 times. Up to
/// 1.1 times it never opens; beyond 6 times nothing is promised.
[[nodiscard]] bool fuse_bears(double fuse_a, double pulse_a, double pulse_ms);

/// The same over a sequence: no stretch above a current lasts longer than a pulse of more may.
[[nodiscard]] bool fuse_bears(double fuse_a, const CurrentCurve& curve, Micros length);

/// The smallest standard fuse that bears a sequence, of which `continuous_a` is what heats.
[[nodiscard]] std::optional<double> fitting_fuse_a(double continuous_a, const CurrentCurve& curve,
                                                   Micros length, double wire_a);

/// Up to so many times its rating a fuse never opens.
inline constexpr double fuse_bears_for_ever = 1.1;

}  // namespace gasp
