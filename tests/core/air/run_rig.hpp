// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"

#include <vector>

namespace gasp::testing {

/// One double-acting actuator (40 mm bore, 200 mm stroke, 5 kg) on a small plant; every figure is given that
/// the simulation can take.
inline Show run_rig() {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 24;
    plant.cut_in_kpa_gauge = 600;
    plant.cut_out_kpa_gauge = 800;
    plant.delivery_l_min = 60;
    plant.regulator_kpa_gauge = 500;
    plant.regulator_c_l_s_bar = 8;
    plant.altitude_m = 0;
    plant.temperature_c = 20;
    Actuator it;
    it.id = {1};
    it.name = "Keeper";
    it.cylinder.bore_mm = 40;
    it.cylinder.rod_mm = 16;
    it.cylinder.stroke_mm = 200;
    it.cylinder.dead_ml = 15;
    it.cylinder.friction_n = 60;
    it.valve.opening_delay_ms = 20;
    it.valve.closing_delay_ms = 30;
    it.valve.supply_c_l_s_bar = 3;
    it.valve.exhaust_c_l_s_bar = 3;
    it.tube.length_m = 2;
    it.tube.bore_mm = 6;
    it.load.mass_kg = 5;
    it.load.angle_deg = 30;
    show.rig.actuators.push_back(it);
    return show;
}

/// Straight up, back by its weight.
inline Show lifting_rig() {
    Show show = run_rig();
    Actuator& it = show.rig.actuators[0];
    it.cylinder.action = CylinderAction::single_gravity_return;
    it.valve.kind = ValveKind::three_two;
    it.load.angle_deg = 90;
    it.load.mass_kg = 20;
    return show;
}

inline const std::vector<StrokeCommand>& out_and_back() {
    static const std::vector<StrokeCommand> commands{{Micros{100'000}, {1}, Coil::out},
                                                     {Micros{1'100'000}, {1}, Coil::back}};
    return commands;
}

inline AirRun played(const Show& show, const AirOptions& options = {},
                     const std::vector<StrokeCommand>& commands = out_and_back(),
                     Micros length = Micros{3'000'000}) {
    return run_air(air_model(show), commands, length, options).value();
}

}  // namespace gasp::testing
