// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/error.hpp"

#include <functional>
#include <optional>

// Nobody outside this folder includes this.

namespace gasp {

/// What a cylinder does that is sent out and back so many times from rest.
struct TrialPlan {
    double out_s = 1.0;   ///< from the command out to the one back
    double back_s = 5.0;  ///< from the command back to the next one out
    int times = 1;
    std::function<bool()> stopped = {};  ///< as AirOptions has it
};

struct Trial {
    std::optional<double> out_s;   ///< to the end of the travel, the first time; none: it does not get there
    std::optional<double> back_s;  ///< likewise
    double end_speed_m_s = 0.0;    ///< out
    double end_energy_j = 0.0;
    double cycle_l = 0.0;  ///< free air of the first time out and back
    double lowest_receiver_kpa_gauge = 0.0;
};

/// Simulates it. Error: the rig cannot be simulated, with the reason.
[[nodiscard]] Result<Trial> try_strokes(const AirPlant& plant, const Actuator& actuator,
                                        const TrialPlan& plan);

}  // namespace gasp
