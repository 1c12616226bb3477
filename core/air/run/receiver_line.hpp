// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_curves.hpp"
#include "core/air/run/quiet_receiver.hpp"

#include <vector>

namespace gasp {

/// The receiver under a draw that is known beforehand.
struct ReceiverLine {
    Curve kpa;  ///< gauge, within 0.05 % of the absolute pressure
    double lowest_kpa = 0.0;
    double lowest_at_s = 0.0;
    double compressor_on_s = 0.0;
    int compressor_starts = 0;
};

/// By QuietReceiver, nothing standing open behind the regulator. `steps` in any order; begins at `start`,
/// absolute, the compressor running, and counted as started, where that is at or below cut-in. Requires: a
/// receiver with a limit.
[[nodiscard]] ReceiverLine receiver_line(const PlantModel& plant, double start, std::vector<DrawStep> steps,
                                         double length_s);

}  // namespace gasp
