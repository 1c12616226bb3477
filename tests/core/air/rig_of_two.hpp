// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/air_memo.hpp"

#include <chrono>

// Two figures on one receiver, every figure of the simulation given. Invented.

namespace gasp::air_test {

using namespace std::chrono_literals;

constexpr ActuatorId keeper{3};
constexpr ActuatorId door{4};

inline Actuator figure(ActuatorId id, double bore_mm, double mass_kg) {
    Actuator actuator;
    actuator.id = id;
    actuator.name = id == keeper ? "Keeper" : "Door";
    actuator.cylinder.bore_mm = bore_mm;
    actuator.cylinder.rod_mm = bore_mm * 0.4;
    actuator.cylinder.stroke_mm = 200.0;
    actuator.valve.opening_delay_ms = 18.0;
    actuator.valve.closing_delay_ms = 26.0;
    actuator.valve.supply_c_l_s_bar = 3.0;
    actuator.valve.supply_b = 0.3;
    actuator.valve.exhaust_c_l_s_bar = 3.0;
    actuator.valve.exhaust_b = 0.3;
    actuator.flow_controls.out_c_l_s_bar = 1.0;
    actuator.flow_controls.out_b = 0.3;
    actuator.tube.length_m = 1.5;
    actuator.tube.bore_mm = 6.0;
    actuator.load.mass_kg = mass_kg;
    actuator.load.angle_deg = 30.0;
    actuator.load.ratio = 1.0;
    actuator.load.friction_percent = 10.0;
    return actuator;
}

inline Show rig_of_two() {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 24.0;
    plant.cut_in_kpa_gauge = 620.0;
    plant.cut_out_kpa_gauge = 830.0;
    plant.delivery_l_min = 75.0;
    plant.regulator_kpa_gauge = 400.0;
    plant.altitude_m = 0.0;
    plant.temperature_c = 20.0;
    show.rig.actuators = {figure(keeper, 32.0, 5.0), figure(door, 40.0, 9.0)};
    return show;
}

}  // namespace gasp::air_test
