// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <cstdio>

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// The figure twenty times in a row on a small tank and compressor.
Show thirsty() {
    Show show = clean_show();
    show.rig.air_plant.receiver_l = 9.0;
    show.rig.air_plant.delivery_l_min = 20.0;
    show.rig.sensor.lockout_s = 60.0;
    show.sequences[0].length = 60s;
    show.sequences[0].cues.clear();
    for (std::uint32_t i = 0; i < 20; ++i) {
        show.sequences[0].cues.push_back(cue(1000 + i, lunge, 1s + i * 2s, 1s));
    }
    return show;
}

}  // namespace

TEST_CASE("a receiver that falls below the regulator, and below what lifts the load") {
    Show show = thirsty();
    auto found = findings(show, "air_budget");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    CHECK(found[0].what == "The receiver falls below the regulator, so strokes get slower");
    CHECK(found[0].limit == "at least 5 bar");
    CHECK(found[0].place.time.has_value());
    show.rig.actuators[0].valve.least_kpa_gauge = 480.0;
    found = findings(show, "air_budget");
    REQUIRE(found.size() == 2);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].what == "The receiver falls too low to move \"Keeper\"");
    CHECK(found[0].limit == "at least 4.8 bar");
    CHECK(found[0].place.actuator == keeper);
}

TEST_CASE("pressures are printed in the units asked for") {
    Show show = clean_show();
    show.rig.air_plant.regulator_kpa_gauge = 80.0;
    const auto found = check(show, show.sequences[0], {.units = UnitSystem::us});
    CHECK(text(found.at(0)) ==
          "stop: The regulator is set too low to move \"Keeper\": 11.6 psi, limit at least "
          "12.5 psi. Set the regulator to 25 psi: from 13 psi on it just moves.");
}

TEST_CASE("each remedy for a receiver that falls too low passes once it is followed") {
    int cut_ins = 0;
    int receivers = 0;
    for (double receiver_l = 4.0; receiver_l < 40.0; receiver_l += 1.0) {
        Show show = thirsty();
        AirPlant& plant = show.rig.air_plant;
        plant.receiver_l = receiver_l;
        plant.cut_out_kpa_gauge = receiver_l < 20.0 ? 680.0 : 850.0;
        const auto found = findings(show, "air_budget");
        if (found.empty()) {
            continue;
        }
        REQUIRE(found.size() == 1);
        double figure = 0.0;
        INFO(receiver_l << " L: " << found[0].remedy);
        if (std::sscanf(found[0].remedy.c_str(), "Raise the cut-in to %lf bar", &figure) == 1) {
            ++cut_ins;
            plant.cut_in_kpa_gauge = figure * 100.0;
            CHECK(*plant.cut_in_kpa_gauge < *plant.cut_out_kpa_gauge);
        } else {
            REQUIRE(std::sscanf(found[0].remedy.c_str(), "Take a receiver of %lf L or more", &figure) == 1);
            ++receivers;
            plant.receiver_l = figure;
        }
        CHECK(findings(show, "air_budget").empty());
    }
    CHECK(cut_ins > 0);
    CHECK(receivers > 0);
}

TEST_CASE("where the regulator stands above the cut-in no receiver helps") {
    Show show = thirsty();
    show.rig.air_plant.cut_in_kpa_gauge = 450.0;
    show.rig.air_plant.cut_out_kpa_gauge = 500.0;
    CHECK(findings(show, "air_budget")[0].remedy.rfind("Take a compressor that cuts in at ", 0) == 0);
}

TEST_CASE("a pilot valve's least pressure counts too") {
    Show show = thirsty();
    show.rig.actuators[0].valve.least_kpa_gauge = 450.0;
    CHECK(findings(show, "air_budget")[0].limit == "at least 4.5 bar");
}

TEST_CASE("a figure that is back does not mind what others draw later") {
    Show show = thirsty();
    Actuator heavy = clean_actuator();
    heavy.id = {4};
    heavy.name = "Door";
    heavy.load.mass_kg = 55.0;  // needs 476.9 kPa
    show.rig.actuators.push_back(heavy);
    Channel door = show.rig.channels[0];
    door.id = {23};
    door.name = "door";
    door.output = 4;
    door.actuator = heavy.id;
    show.rig.channels.push_back(door);
    show.sequences[0].cues.push_back(cue(2000, door.id, 100ms, 500ms));
    const auto moved_first = findings(show, "air_budget");
    CHECK(std::none_of(moved_first.begin(), moved_first.end(),
                       [&](const Finding& finding) { return finding.place.actuator == heavy.id; }));
    show.sequences[0].cues.back().length = 50s;  // held out while the others draw
    const auto held = findings(show, "air_budget");
    CHECK(std::any_of(held.begin(), held.end(),
                      [&](const Finding& finding) { return finding.place.actuator == heavy.id; }));
}

TEST_CASE("no pressure beyond what the cylinder may have is ever advised") {
    Show show = clean_show();
    show.rig.actuators[0].load.mass_kg = 900.0;
    const auto found = findings(show, "air_budget");
    REQUIRE_FALSE(found.empty());
    for (const Finding& finding : found) {
        if (finding.severity == Severity::stop) {
            CHECK(finding.remedy.find("Take a larger bore, or lighten the load") == 0);
        }
    }
    // A rating below what is needed bounds it as well.
    show = clean_show();
    show.rig.air_plant.regulator_kpa_gauge = 80.0;
    show.rig.actuators[0].cylinder.rating_kpa_gauge = 82.0;
    CHECK(findings(show, "air_budget").at(0).remedy.find("Take a larger bore") == 0);
}

TEST_CASE("a regulator set below what lifts the load") {
    Show show = clean_show();
    show.rig.air_plant.regulator_kpa_gauge = 80.0;
    CHECK(texts(show, "air_budget") ==
          Lines{"stop: The regulator is set too low to move \"Keeper\": 0.8 bar, "
                "limit at least 0.86 bar. Set the regulator to 1.8 bar: from 0.9 bar on it just moves."});
}

TEST_CASE("a pressure switch that is upside down") {
    Show show = clean_show();
    show.rig.air_plant.cut_out_kpa_gauge = 600.0;
    CHECK(findings(show, "air_budget")[0].what == "The compressor starts no lower than it stops");
}

TEST_CASE("blank inputs of the air budget are not checked, each once") {
    Show show = clean_show();
    show.rig.air_plant.receiver_l.reset();
    show.rig.actuators[0].cylinder.bore_mm.reset();
    CHECK(texts(show, "air_budget") ==
          Lines{"note: Not checked: no receiver of the air plant. Fill in the receiver of the air plant."});
    CHECK(texts(show, "simulated") ==
          Lines{"note: Not checked: no bore of \"Keeper\". Fill in the bore of \"Keeper\"."});
    show.sequences[0].cues = {cue(1, lamp, 1s, 1s)};  // no air is used
    CHECK(texts(show, "air_budget").empty());
}
