// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"

namespace gasp {

/// N against the way out at a travel (m) of the rod: weight, springs and counterweights, friction left out.
[[nodiscard]] inline double load_force(const ActuatorModel& model, double travel, const Gearing& gearing) {
    return model.mass * standard_gravity * gearing.height_slope + model.spring_force +
           model.spring_rate * travel;
}

/// The least working pressure, kPa gauge, that moves the figure from wherever it stands: against load,
/// springs and friction (the standing one from either end), at the worst travel, both ways where air drives
/// both, the other side vented. A figure in motion may get past the worst place with less.
[[nodiscard]] double least_moving_kpa_gauge(const ActuatorModel& model);

}  // namespace gasp
