// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"

#include <string>
#include <vector>

// The rigs that tests and benchmarks of the air play. Invented.

namespace gasp::for_tests {

inline constexpr ActuatorId keeper{1};
inline constexpr ActuatorId hatch{2};

/// A double-acting cylinder on a 5/2 valve, its load 30 degrees up; every figure that the simulation needs.
inline Actuator figure(ActuatorId id, std::string name, double bore_mm, double stroke_mm, double mass_kg) {
    Actuator it;
    it.id = id;
    it.name = std::move(name);
    it.cylinder.bore_mm = bore_mm;
    it.cylinder.rod_mm = 0.4 * bore_mm;
    it.cylinder.stroke_mm = stroke_mm;
    it.valve.opening_delay_ms = 20.0;
    it.valve.closing_delay_ms = 30.0;
    it.valve.supply_c_l_s_bar = 3.0;
    it.valve.supply_b = 0.3;
    it.valve.exhaust_c_l_s_bar = 3.0;
    it.valve.exhaust_b = 0.3;
    it.tube.length_m = 2.0;
    it.tube.bore_mm = 6.0;
    it.load.mass_kg = mass_kg;
    it.load.angle_deg = 30.0;
    it.load.ratio = 1.0;
    it.load.friction_percent = 10.0;
    return it;
}

/// Figures of a plant, pressures gauge.
struct PlantFigures {
    double receiver_l = 0.0;
    double cut_in_kpa = 0.0;
    double cut_out_kpa = 0.0;
    double delivery_l_min = 0.0;
    double regulator_kpa = 0.0;
};

inline Show show_of(const PlantFigures& figures, std::vector<Actuator> actuators) {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = figures.receiver_l;
    plant.cut_in_kpa_gauge = figures.cut_in_kpa;
    plant.cut_out_kpa_gauge = figures.cut_out_kpa;
    plant.delivery_l_min = figures.delivery_l_min;
    plant.regulator_kpa_gauge = figures.regulator_kpa;
    plant.altitude_m = 0.0;
    plant.temperature_c = 20.0;
    show.rig.actuators = std::move(actuators);
    return show;
}

/// One figure on a small plant, friction and dead volume given, the ratios b blank.
inline Show rig_of_one() {
    Show show = show_of({24.0, 600.0, 800.0, 60.0, 500.0}, {figure(keeper, "Keeper", 40.0, 200.0, 5.0)});
    show.rig.air_plant.regulator_c_l_s_bar = 8.0;
    Actuator& it = show.rig.actuators[0];
    it.cylinder.dead_ml = 15.0;
    it.cylinder.friction_n = 60.0;
    it.load.friction_percent.reset();
    it.valve.supply_b.reset();
    it.valve.exhaust_b.reset();
    return show;
}

/// The same straight up, back by its weight.
inline Show lifting_rig() {
    Show show = rig_of_one();
    Actuator& it = show.rig.actuators[0];
    it.cylinder.action = CylinderAction::single_gravity_return;
    it.valve.kind = ValveKind::three_two;
    it.load.angle_deg = 90.0;
    it.load.mass_kg = 20.0;
    return show;
}

/// A figure that is throttled on its way.
inline Actuator throttled(ActuatorId id, std::string name, double bore_mm, double mass_kg) {
    Actuator it = figure(id, std::move(name), bore_mm, 200.0, mass_kg);
    it.valve.opening_delay_ms = 18.0;
    it.valve.closing_delay_ms = 26.0;
    it.tube.length_m = 1.5;
    it.flow_controls.out_c_l_s_bar = 1.0;
    it.flow_controls.out_b = 0.3;
    return it;
}

/// Two of them on one receiver that keeps up with both.
inline Show rig_of_two() {
    return show_of({24.0, 620.0, 830.0, 75.0, 400.0},
                   {throttled(keeper, "Keeper", 32.0, 5.0), throttled(hatch, "Hatch", 40.0, 9.0)});
}

/// A small fast one, level, its valve without delay: what benchmarks play.
inline Show bench_rig(double receiver_l, double cut_in_kpa, double delivery_l_min) {
    Actuator it = figure(keeper, "Keeper", 25.0, 100.0, 2.0);
    it.cylinder.dead_ml = 4.0;
    it.cylinder.friction_n = 15.0;
    it.valve.opening_delay_ms = 0.0;
    it.valve.closing_delay_ms = 0.0;
    it.valve.supply_c_l_s_bar = 0.5;
    it.valve.exhaust_c_l_s_bar = 0.5;
    it.tube.length_m = 1.0;
    it.tube.bore_mm = 4.0;
    it.load.angle_deg = 0.0;
    return show_of({receiver_l, cut_in_kpa, 800.0, delivery_l_min, 480.0}, {std::move(it)});
}

inline const std::vector<StrokeCommand>& out_and_back() {
    static const std::vector<StrokeCommand> commands{{Micros{100'000}, keeper, Coil::out},
                                                     {Micros{1'100'000}, keeper, Coil::back}};
    return commands;
}

inline AirRun played(const Show& show, const AirOptions& options = {},
                     const std::vector<StrokeCommand>& commands = out_and_back(),
                     Micros length = Micros{3'000'000}) {
    return run_air(air_model(show), commands, length, options).value();
}

}  // namespace gasp::for_tests
