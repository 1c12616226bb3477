// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"

#include <algorithm>
#include <chrono>

namespace gasp::for_tests {

inline constexpr ActuatorId keeper{1};
inline constexpr ActuatorId hatch{2};
inline constexpr SequenceId scare{10};
inline constexpr SequenceId second_scare{11};
inline constexpr SequenceId watch{12};

inline Actuator figure(ActuatorId id, const char* name, double bore_mm, double mass_kg) {
    Actuator actuator;
    actuator.id = id;
    actuator.name = name;
    actuator.cylinder.action = CylinderAction::double_acting;
    actuator.cylinder.bore_mm = bore_mm;
    actuator.cylinder.rod_mm = 0.4 * bore_mm;
    actuator.cylinder.stroke_mm = 250.0;
    actuator.valve.opening_delay_ms = 20.0;
    actuator.valve.closing_delay_ms = 30.0;
    actuator.valve.supply_c_l_s_bar = 3.0;
    actuator.valve.supply_b = 0.3;
    actuator.valve.exhaust_c_l_s_bar = 3.0;
    actuator.valve.exhaust_b = 0.3;
    actuator.tube.length_m = 2.0;
    actuator.tube.bore_mm = 6.0;
    actuator.load.mass_kg = mass_kg;
    actuator.load.angle_deg = 30.0;
    actuator.load.ratio = 1.0;
    actuator.load.friction_percent = 10.0;
    return actuator;
}

/// A small plant with two figures on it: 10 L between 550 and 760 kPa, 42 L/min, regulated to 420 kPa.
inline Show night_show() {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 10.0;
    plant.cut_in_kpa_gauge = 550.0;
    plant.cut_out_kpa_gauge = 760.0;
    plant.delivery_l_min = 42.0;
    plant.regulator_kpa_gauge = 420.0;
    show.rig.actuators = {figure(keeper, "Keeper", 40.0, 9.0), figure(hatch, "Hatch", 50.0, 12.0)};
    return show;
}

/// Out after 2 s, back 1.5 s later; of the second figure half a second after the first.
inline NightSequence scare_of(std::vector<ActuatorId> actuators, double lockout_s = 25.0) {
    using namespace std::chrono_literals;
    NightSequence sequence;
    sequence.id = scare;
    sequence.length = 8s;
    sequence.lockout_s = lockout_s;
    Micros at = 2s;
    for (const ActuatorId actuator : actuators) {
        sequence.commands.push_back({at, actuator, Coil::out});
        sequence.commands.push_back({at + 1500ms, actuator, Coil::back});
        at += 500ms;
    }
    std::ranges::stable_sort(sequence.commands, {}, &StrokeCommand::time);
    return sequence;
}

inline NightTerms terms_of(double hours, double groups_per_h, int runs = 1) {
    NightTerms terms;
    terms.hours = hours;
    terms.groups_by_hour = {groups_per_h};
    terms.runs = runs;
    return terms;
}

inline Result<NightForecast> forecast(const Show& show, std::span<const NightSequence> sequences,
                                      const NightTerms& terms, const NightWork& options = {}) {
    const std::atomic<bool> cancel{false};
    return forecast_night(show, sequences, terms, options, cancel, {});
}

}  // namespace gasp::for_tests
