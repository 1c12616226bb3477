// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

namespace gasp {

/// A valve and a lamp driven from 1 s to 2 s, and a normally closed lamp with them; 4 s long, no sound.
inline Show rig_for_tests() {
    Show show = empty_show();
    Actuator actuator;
    actuator.id = ActuatorId{101};
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 40.0;
    actuator.cylinder.rod_mm = 16.0;
    actuator.cylinder.stroke_mm = 200.0;
    actuator.cylinder.rating_kpa_gauge = 1000.0;
    actuator.valve.opening_delay_ms = 20.0;
    actuator.valve.closing_delay_ms = 20.0;
    actuator.tube = {3.0, 6.0, {}};
    actuator.load.mass_kg = 5.0;
    actuator.load.angle_deg = 30.0;
    actuator.load.ratio = 1.0;
    actuator.load.friction_percent = 10.0;
    actuator.motion = {200.0, 420.0, {}};
    show.rig.actuators.push_back(actuator);
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 24.0;
    plant.cut_in_kpa_gauge = 600.0;
    plant.cut_out_kpa_gauge = 800.0;
    plant.delivery_l_min = 60.0;
    plant.duty_percent = 50.0;
    plant.regulator_kpa_gauge = 500.0;
    plant.altitude_m = 0.0;
    plant.temperature_c = 20.0;
    show.rig.sensor.lockout_s = 30.0;

    Sequence& sequence = show.sequences.front();
    sequence.length = Micros{4'000'000};
    for (const std::uint32_t i : {0U, 1U, 2U}) {
        Channel channel;
        channel.id = ChannelId{102 + i};
        channel.name = i == 0 ? "Keeper valve" : i == 1 ? "Lantern" : "Watch room";
        channel.kind = i == 0 ? ChannelKind::valve : ChannelKind::lamp;
        channel.contact = i == 2 ? Contact::normally_closed : Contact::normally_open;
        if (i == 0) {
            channel.actuator = actuator.id;
        }
        show.rig.channels.push_back(channel);
        Cue cue;
        cue.id = CueId{110 + i};
        cue.channel = channel.id;
        cue.at = Micros{1'000'000};
        cue.length = Micros{1'000'000};
        sequence.cues.push_back(cue);
    }
    show.next_id = 200;
    return show;
}

}  // namespace gasp
