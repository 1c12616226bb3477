// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// Two figures at once on a receiver that holds too little for both.
Show two_at_once(Micros apart) {
    Show show = clean_show();
    show.rig.air_plant.receiver_l = 0.6;
    show.rig.actuators[0].flow_controls.out_c_l_s_bar = 3.0;
    show.rig.air_plant.cut_in_kpa_gauge = 520.0;
    show.rig.air_plant.delivery_l_min = 60.0;
    Actuator second = clean_actuator();
    second.id = {4};
    second.name = "Door";
    second.cylinder.bore_mm = 63.0;
    second.valve.supply_c_l_s_bar = 8.0;
    show.rig.actuators.push_back(second);
    Channel door = show.rig.channels[0];
    door.id = {23};
    door.name = "door";
    door.output = 4;
    door.actuator = second.id;
    show.rig.channels.push_back(door);
    show.sequences[0].length = 12s;
    show.sequences[0].cues.push_back(cue(2000, door.id, 2s - apart, 1s));
    return show;
}

}  // namespace

TEST_CASE("a stroke weakened by what another draws at the same time") {
    CHECK(findings(clean_show(), "starved").empty());
    const auto found = findings(two_at_once(50ms), "starved");
    REQUIRE(!found.empty());
    CHECK(found[0].severity == Severity::warn);
    CHECK(found[0].what.find(" starves ") != std::string::npos);
    CHECK(found[0].remedy.find("reservoir") != std::string::npos);
    Show blank = two_at_once(50ms);
    blank.rig.air_plant.regulator_kpa_gauge.reset();
    CHECK(findings(blank, "starved").empty());
    CHECK(findings(blank, "simulated").at(0).not_checked);
}
