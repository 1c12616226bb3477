// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/force_balance.hpp"

#include <algorithm>

namespace gasp {

double least_moving_kpa_gauge(const ActuatorModel& model) {
    constexpr int places = 400;
    double least = 0.0;
    for (int i = 0; i <= places; ++i) {
        const double travel = model.stroke * i / places;
        const double load = load_force(model, travel, model.mechanism.at(travel));
        const double out = load + (i == 0 ? model.static_friction : model.moving_friction);
        const double back = -load + (i == places ? model.static_friction : model.moving_friction);
        least = std::max({least, out / model.out_area, model.back_is_air ? back / model.back_area : 0.0});
    }
    return least * 1e-3;
}

}  // namespace gasp
