// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/blank_field.hpp"
#include "core/show/rig.hpp"
#include "core/units/error.hpp"

#include <vector>

namespace gasp {

/// Free air (ISO 8778) of one stroke each way, litres, by the handbook: swept volume times the ratio of
/// absolute working pressure to 100 kPa, and tube volume times the ratio of gauge pressure to 100 kPa, since
/// a vented tube still holds the air around it.
struct StrokeAir {
    double out_l = 0.0;
    double back_l = 0.0;  ///< 0 unless a 5/2 valve drives a double-acting cylinder back
};

/// Ambient pressure at the plant's altitude, kPa absolute (ISO 2533); at sea level where that is blank.
[[nodiscard]] double ambient_kpa(const AirPlant& plant);

/// The least working pressure that moves the load both ways, kPa gauge: its weight along the stroke and the
/// spring over the area the air presses on, with the share of the force that friction takes added. Error:
/// names the first field that is blank.
[[nodiscard]] Result<double> least_lifting_kpa_gauge(const Actuator& actuator);

/// Error: names the first field that is blank.
[[nodiscard]] Result<StrokeAir> stroke_air(const AirPlant& plant, const Actuator& actuator);

/// The blank fields that stroke_air needs.
[[nodiscard]] std::vector<BlankField> blanks_of_stroke_air(const AirPlant& plant, const Actuator& actuator);
/// The blank fields that least_lifting_kpa_gauge needs.
[[nodiscard]] std::vector<BlankField> blanks_of_lifting(const Actuator& actuator);

}  // namespace gasp
