// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/air_model.hpp"

#include "core/air/model/model_figures.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

double ambient_kpa(const AirPlant& plant) {
    // ISO 2533 (troposphere), in its closed form.
    return 101.325 * std::pow(1.0 - 2.25577e-5 * plant.altitude_m.value_or(0.0), 5.25588);
}

const ActuatorModel* AirModel::find(ActuatorId id) const {
    const auto at = std::ranges::find(actuators, id, &ActuatorModel::id);
    return at != actuators.end() ? &*at : nullptr;
}

AirModel air_model(const Show& show) {
    AirModel model;
    if (!set_plant(model, show.rig.air_plant)) {
        return model;
    }
    for (const Actuator& actuator : show.rig.actuators) {
        add_actuator(model, show.rig.air_plant, actuator);
    }
    return model;
}

ActuatorModel varied(const ActuatorModel& model, const AirFactors& factors) {
    ActuatorModel other = model;
    other.moving_friction *= factors.friction;
    other.static_friction *= factors.friction;
    other.viscous *= factors.friction;
    other.heat_transfer *= factors.heat;
    for (Conductance* path : {&other.supply, &other.exhaust, &other.cushioned_exhaust, &other.feed}) {
        path->c *= factors.conductance;
    }
    other.opening_delay *= factors.delay;
    other.closing_delay *= factors.delay;
    other.mass *= factors.load;
    return other;
}

AirModel varied(const AirModel& model, const AirFactors& factors) {
    AirModel other = model;
    for (ActuatorModel& actuator : other.actuators) {
        actuator = varied(actuator, factors);
    }
    return other;
}

}  // namespace gasp
