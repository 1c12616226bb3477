// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/flow.hpp"

#include <cmath>

namespace gasp {

/// K, of the air in a chamber of so much volume (m3) while a pressure that rises steadily by `rise` (Pa/s)
/// fills it, its wall taking `heat` W/K. `around` is the temperature of the wall and of what flows in.
[[nodiscard]] inline double temperature_while_filling(double volume, double heat, double rise,
                                                      double around) {
    if (rise <= 0.0 || volume <= 0.0 || std::isinf(heat)) {
        return around;
    }
    // The inner energy p V / (gamma - 1) gains what flows in, p' V / (R T) cp T0 for a steady temperature T,
    // less what the wall takes, heat (T - T0): k T^2 + (1 - k T0) T = gamma T0.
    const double k = (heat_ratio - 1.0) * heat / (rise * volume);
    const double half = 1.0 - k * around;
    const double root = std::sqrt(half * half + 4.0 * k * heat_ratio * around);
    return half > 0.0 ? 2.0 * heat_ratio * around / (half + root) : (root - half) / (2.0 * k);
}

}  // namespace gasp
