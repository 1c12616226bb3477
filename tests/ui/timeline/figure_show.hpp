// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/ui/timeline/on_screen.hpp"

namespace gasp::test {

/// The small show, its valve driving a figure out from 2 s to 3.5 s.
inline Show show_with_figure() {
    Show show = small_show();
    AirPlant plant;
    plant.receiver_l = 24.0;
    plant.cut_in_kpa_gauge = 620.0;
    plant.cut_out_kpa_gauge = 830.0;
    plant.delivery_l_min = 75.0;
    plant.regulator_kpa_gauge = 400.0;
    apply(set_air_plant(show, plant), show);
    Actuator actuator;
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 32.0;
    actuator.cylinder.rod_mm = 12.0;
    actuator.cylinder.stroke_mm = 200.0;
    actuator.valve.supply_c_l_s_bar = 2.5;
    actuator.valve.opening_delay_ms = 18.0;
    actuator.valve.closing_delay_ms = 26.0;
    actuator.flow_controls.out_c_l_s_bar = 0.8;
    actuator.tube.length_m = 1.2;
    actuator.tube.bore_mm = 5.5;
    actuator.load.mass_kg = 4.5;
    actuator.load.angle_deg = 15.0;
    actuator.load.ratio = 1.6;
    actuator.load.friction_percent = 10.0;
    apply(add_actuator(show, actuator), show);
    Channel valve = show.rig.channels.back();
    valve.actuator = show.rig.actuators.back().id;
    apply(set_channel(show, valve), show);
    Cue cue;
    cue.channel = valve.id;
    cue.at = Micros{2'000'000};
    cue.length = Micros{1'500'000};
    apply(add_cues(show, show.sequences.front().id, {cue}), show);
    return show;
}

}  // namespace gasp::test
