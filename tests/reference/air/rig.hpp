// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <array>
#include <string_view>

// Published examples are typed in as they are printed, in metric or US units, and read as a user's entry is.

namespace gasp::reference {

/// "2 in" -> 50.8, "80 psi" -> 551.58...: the document's figure for an entry with its unit.
inline double entered(Quantity quantity, std::string_view text) {
    return parse_quantity(quantity, text, UnitSystem::metric).value();
}

inline double length(std::string_view text) {
    return entered(Quantity::small_length, text);
}
inline double gauge(std::string_view text) {
    return entered(Quantity::gauge_pressure, text);
}

constexpr double litres_in_cubic_foot = 28.316846592;  // (0.3048 m)^3
/// A standard cubic foot of US books is at 14.7 psia = 101.353 kPa; free air of ISO 8778 at 100 kPa.
constexpr double litres_in_scf = litres_in_cubic_foot * 1.01353;

inline AirPlant plant_at(std::string_view pressure) {
    AirPlant plant;
    plant.regulator_kpa_gauge = gauge(pressure);
    return plant;
}

/// A double-acting cylinder on a 5/2 valve without tubes, moving next to nothing. A rod of "0 mm" is one the
/// book leaves out: it gets the thinnest there is.
inline Actuator cylinder(std::string_view bore, std::string_view rod, std::string_view stroke) {
    Actuator actuator;
    actuator.id = {7};
    actuator.cylinder.bore_mm = length(bore);
    actuator.cylinder.rod_mm = std::max(length(rod), 0.5);
    actuator.cylinder.stroke_mm = length(stroke);
    actuator.cylinder.dead_ml = 0.01;
    actuator.cylinder.friction_n = 0.0;
    actuator.valve.supply_c_l_s_bar = 3.0;
    actuator.tube.length_m = 0.0;
    actuator.tube.bore_mm = 4.0;
    actuator.load.mass_kg = 1.0;
    actuator.load.angle_deg = 0.0;
    return actuator;
}

inline Actuator single_acting(std::string_view bore, std::string_view stroke) {
    Actuator actuator = cylinder(bore, "0 mm", stroke);
    actuator.cylinder.action = CylinderAction::single_spring_return;
    actuator.cylinder.spring_n = 20.0;
    actuator.valve.kind = ValveKind::three_two;
    return actuator;
}

inline AirModel model_of(const AirPlant& plant, const Actuator& actuator) {
    Show show = empty_show();
    show.rig.air_plant = plant;
    show.rig.actuators.push_back(actuator);
    return air_model(show);
}

/// Free air of one cycle as it is simulated, litres: out and back, with a rest long enough after each for the
/// air to take the temperature around.
inline double cycle_l(const AirPlant& plant, const Actuator& actuator) {
    const Micros rest{60'000'000};
    const std::array commands{StrokeCommand{Micros{0}, actuator.id, Coil::out},
                              StrokeCommand{rest, actuator.id, Coil::back}};
    return run_air(model_of(plant, actuator), commands, 2 * rest).value().free_air_l;
}

}  // namespace gasp::reference
