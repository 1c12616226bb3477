// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <algorithm>
#include <chrono>
#include <iterator>
#include <string_view>
#include <vector>

// A show without findings but the note of what its figure does on a failure; each test spoils one thing of
// it.

namespace gasp::checks_test {

using namespace std::chrono_literals;

constexpr ActuatorId keeper{3};
constexpr BoardId box{10};
constexpr ChannelId lunge{20};
constexpr ChannelId lamp{21};
constexpr SupplyId adapter{30};

inline Cue cue(std::uint32_t id, ChannelId channel, Micros at, Micros length) {
    Cue made;
    made.id = {id};
    made.channel = channel;
    made.at = at;
    made.length = length;
    return made;
}

inline Actuator clean_actuator() {
    Actuator actuator;
    actuator.id = keeper;
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 40.0;
    actuator.cylinder.rod_mm = 16.0;
    actuator.cylinder.stroke_mm = 100.0;
    actuator.valve.shortest_on_ms = 50.0;
    actuator.valve.shortest_off_ms = 100.0;
    actuator.tube.length_m = 2.0;
    actuator.tube.bore_mm = 4.0;
    actuator.load.mass_kg = 10.0;
    actuator.load.angle_deg = 90.0;
    actuator.load.ratio = 1.0;
    actuator.load.friction_percent = 10.0;
    actuator.motion.out_ms = 250.0;
    actuator.motion.back_ms = 900.0;
    actuator.cylinder.rating_kpa_gauge = 1000.0;
    actuator.cylinder.rated_speed_m_s = 3.0;
    actuator.cylinder.rated_energy_j = 60.0;
    actuator.valve.opening_delay_ms = 18.0;
    actuator.valve.closing_delay_ms = 26.0;
    actuator.valve.supply_c_l_s_bar = 3.0;
    actuator.flow_controls.out_c_l_s_bar = 0.6;
    actuator.base.depth_mm = 1200.0;
    actuator.base.height_mm = 500.0;
    actuator.base.mass_kg = 200.0;
    actuator.fit.friction_factor = 1.0;
    actuator.fit.friction_spread_percent = 5.0;
    actuator.fit.conductance_factor = 1.0;
    actuator.fit.conductance_spread_percent = 2.0;
    actuator.fit.delay_factor = 1.0;
    actuator.fit.delay_spread_percent = 5.0;
    actuator.fit.heat_spread_percent = 30.0;
    actuator.fit.load_spread_percent = 2.0;
    return actuator;
}

inline Channel clean_channel(ChannelId id, std::string_view name, std::uint32_t output) {
    Channel channel;
    channel.id = id;
    channel.name = name;
    channel.board = box;
    channel.output = output;
    channel.start_level = StartLevel::rest;
    channel.shortest_on_ms = 20.0;
    channel.shortest_off_ms = 20.0;
    return channel;
}

inline Circuit clean_circuit(LoadKind load) {
    Circuit circuit;
    circuit.supply = adapter;
    circuit.load = load;
    circuit.switched_by = SwitchedBy::relay;
    circuit.volts = 12.0;
    circuit.switch_a = 2.0;
    circuit.wire_mm2 = 0.75;
    circuit.wire_length_m = 5.0;
    return circuit;
}

/// A valve of 0.4 A and a lamp of 1 A on 12 V.
inline void add_clean_power(Rig& rig) {
    Supply supply;
    supply.id = adapter;
    supply.name = "12 V";
    supply.volts = 12.0;
    supply.rated_a = 10.0;
    supply.standing_a = 0.3;
    supply.fuse_a = 5.0;
    rig.supplies.push_back(supply);
    Circuit& coil = rig.channels[0].circuit = clean_circuit(LoadKind::coil);
    rig.channels[0].load_current_a = 0.4;
    coil.suppression = Suppression::diode;
    coil.least_percent = 85.0;
    coil.duty_percent = 100.0;
    coil.fuse_a = 1.0;
    Circuit& light = rig.channels[1].circuit = clean_circuit(LoadKind::lamp);
    rig.channels[1].load_current_a = 1.0;
    light.inrush_a = 8.0;
    light.inrush_ms = 30.0;
    light.fuse_a = 3.0;
}

inline Show clean_show() {
    Show show = empty_show();
    show.next_id = 100'000;
    show.rig.air_plant.receiver_l = 24.0;
    show.rig.air_plant.cut_in_kpa_gauge = 650.0;
    show.rig.air_plant.cut_out_kpa_gauge = 850.0;
    show.rig.air_plant.delivery_l_min = 60.0;
    show.rig.air_plant.regulator_kpa_gauge = 500.0;
    show.rig.air_plant.duty_percent = 60.0;
    show.rig.air_plant.starts_per_h = 30.0;
    show.rig.actuators.push_back(clean_actuator());
    Board board;
    board.id = box;
    board.name = "box";
    board.outputs = 8.0;
    board.table_bytes = 16384.0;
    show.rig.boards.push_back(board);
    Channel valve = clean_channel(lunge, "lunge", 1);
    valve.kind = ChannelKind::valve;
    valve.actuator = keeper;
    show.rig.channels = {valve, clean_channel(lamp, "lamp", 2)};
    add_clean_power(show.rig);
    show.rig.sensor.lockout_s = 12.0;
    show.sequences[0].name = "scare";
    show.sequences[0].cues = {cue(1001, lunge, 2s, 1s), cue(1002, lamp, 1s, 3s)};
    return show;
}

/// The same without a figure that the simulation needs: the stated stroke times count.
inline Show stated_show() {
    Show show = clean_show();
    show.rig.actuators[0].valve.supply_c_l_s_bar.reset();
    return show;
}

inline std::vector<Finding> findings(const Show& show) {
    return check(show, show.sequences[0]);
}

/// Those of one check.
inline std::vector<Finding> findings(const Show& show, std::string_view name) {
    std::vector<Finding> found;
    const auto all = findings(show);
    std::copy_if(all.begin(), all.end(), std::back_inserter(found),
                 [&](const Finding& finding) { return finding.check == name; });
    return found;
}

/// As printed, so that every word, figure and limit is looked at.
inline std::vector<std::string> texts(const Show& show, std::string_view name) {
    std::vector<std::string> lines;
    for (const Finding& finding : findings(show, name)) {
        lines.push_back(text(finding));
    }
    return lines;
}

using Lines = std::vector<std::string>;

}  // namespace gasp::checks_test
