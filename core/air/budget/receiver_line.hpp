// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_curves.hpp"

#include <vector>

namespace gasp {

/// From a moment on the draw on the receiver is by so much greater.
struct DrawStep {
    double time_s = 0.0;
    double kg_per_s = 0.0;
};

/// The receiver under a draw that is known beforehand.
struct ReceiverLine {
    Curve kpa;  ///< gauge, within 0.05 % of the absolute pressure
    double lowest_kpa = 0.0;
    double lowest_at_s = 0.0;
    double compressor_on_s = 0.0;
    int compressor_starts = 0;
};

/// Isothermal: V / (R T) dp/dt = delivery - leak - draw, the compressor by its switch. `steps` in any order;
/// begins at `start`, absolute, the compressor running where that is at or below cut-in. Requires: a receiver
/// with a limit.
[[nodiscard]] ReceiverLine receiver_line(const PlantModel& plant, double start, std::vector<DrawStep> steps,
                                         double length_s);

/// Straight lines through fewer points, none further from the given ones than the share of the absolute
/// value, `floor` being its zero.
[[nodiscard]] std::vector<CurvePoint> thinned(const std::vector<CurvePoint>& points, double share,
                                              double floor);

}  // namespace gasp
