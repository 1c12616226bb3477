// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/base_load.hpp"

#include "core/air/model/flow.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

std::vector<BlankField> blanks_of_base(const Actuator& actuator) {
    BlankFields blanks(&actuator);
    blanks.need(actuator.base.depth_mm, "base.depth_mm", "footprint");
    blanks.need(actuator.base.height_mm, "base.height_mm", "height of the strike");
    blanks.need(actuator.base.mass_kg, "base.mass_kg", "mass of the base");
    if (actuator.linkage.kind == LinkageKind::direct) {
        blanks.need(actuator.load.angle_deg, "load.angle_deg", "slope of the way out");
    }
    return blanks.take();
}

Result<BaseLoad> base_load(const Actuator& actuator, double peak_force_n) {
    if (const auto blanks = blanks_of_base(actuator); !blanks.empty()) {
        return tl::unexpected(blank_error(blanks.front()));
    }
    const double depth = si(Quantity::small_length, *actuator.base.depth_mm);
    const double height = si(Quantity::small_length, *actuator.base.height_mm);
    const bool direct = actuator.linkage.kind == LinkageKind::direct;
    const double slope = direct ? si(Quantity::angle, *actuator.load.angle_deg) : 0.0;
    BaseLoad load;
    load.moment_nm =
        peak_force_n * (std::abs(std::cos(slope)) * height + std::abs(std::sin(slope)) * depth / 2.0);
    load.holding_nm = *actuator.base.mass_kg * standard_gravity * depth / 2.0;
    const double lacking = std::max(0.0, load.moment_nm - load.holding_nm);
    load.anchor_n = lacking / depth;
    load.ballast_kg = lacking / (standard_gravity * depth / 2.0);
    return load;
}

}  // namespace gasp
