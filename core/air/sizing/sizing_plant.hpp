// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/sizing/sizing.hpp"
#include "core/air/sizing/sizing_trial.hpp"

#include <vector>

// Nobody outside this folder includes this.

namespace gasp {

/// A chosen cylinder with its paths, and what one time out and back takes.
struct SizedStroke {
    AirPlant plant;  ///< regulator and the air around
    Actuator actuator;
    TrialPlan plan;
    double cycle_l = 0.0;
};

struct PlantChoice {
    AirPlant plant;
    std::vector<SizedFigure> figures;  ///< receiver and compressor
    double lowest_receiver_kpa_gauge = 0.0;
};

/// Compressor and receiver: by the handbook, then the receiver enlarged until the scares on end, simulated
/// from cut-in, leave the regulator its pressure. Error: no usual receiver does.
[[nodiscard]] Result<PlantChoice> choose_plant(const SizingTask& task, UnitSystem units,
                                               const SizedStroke& stroke);

}  // namespace gasp
