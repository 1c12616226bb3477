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

/// What a sequence gives, over its length. It may be run again at once.
struct FuseRun {
    const CurrentCurve* curve = nullptr;
    Micros length{0};
};

/// The same over sequences that run at once, begun at any distance from each other; `rest` flows always and
/// is in each of their curves. Of one sequence: no stretch above a current lasts longer than a pulse of more
/// may. Of several: no stretch of their sum can, however they meet; where that cannot be told by their peaks
/// and by what each gives at most within such a time, false.
[[nodiscard]] bool fuse_bears(double fuse_a, MicroAmps rest, std::span<const FuseRun> runs);

/// The smallest standard fuse that bears them, of which `continuous_a` is what heats.
[[nodiscard]] std::optional<double> fitting_fuse_a(double continuous_a, MicroAmps rest,
                                                   std::span<const FuseRun> runs, double wire_a);

/// Up to so many times its rating a fuse never opens.
inline constexpr double fuse_bears_for_ever = 1.1;

}  // namespace gasp
