// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <cmath>

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a stroke that is not complete within its cue") {
    CHECK(findings(clean_show(), "stroke").empty());
    Show show = clean_show();
    show.sequences[0].cues[0].length = 100ms;
    auto found = findings(show, "stroke");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].what == "\"Keeper\" is turned before it is fully out");
    CHECK(found[0].figure == "100 ms");
    CHECK(found[0].place.time == 2s);
    CHECK(found[0].place.actuator == keeper);
}

TEST_CASE("the unfavourable end of the band counts") {
    Show show = clean_show();
    AirMemo memo;
    const SequenceRun run = work_out(show, show.sequences[0], memo);
    const auto needed = Micros{std::llround(*run.air.run->strokes[0].reached_s[3] * 1e6)};
    show.sequences[0].cues[0].length = needed + 2ms;
    show.rig.actuators[0].fit = {};
    const auto found = findings(show, "stroke");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    CHECK(found[0].what == "\"Keeper\" may be turned before it is fully out");
    CHECK(found[0].remedy.find("time the real stroke") != std::string::npos);
}

TEST_CASE("a figure too heavy for the regulator stops short; without figures nothing is claimed") {
    Show show = clean_show();
    show.rig.actuators[0].load.mass_kg = 70.0;
    const auto found = findings(show, "stroke");
    REQUIRE(!found.empty());
    CHECK(found[0].severity == Severity::stop);
    CHECK(findings(stated_show(), "stroke").empty());
    CHECK_FALSE(findings(stated_show(), "simulated").empty());
}

TEST_CASE("a cue that is as much longer as the remedy says is long enough at the unfavourable end too") {
    Show show = clean_show();
    Cue& cue = show.sequences[0].cues[0];
    cue.length = 100ms;
    const auto found = findings(show, "stroke");
    REQUIRE(found.size() == 1);
    const std::string words = "Make the cue ";
    REQUIRE(found[0].remedy.rfind(words, 0) == 0);
    const std::string rest = found[0].remedy.substr(words.size());
    cue.length += parse_time(rest.substr(0, rest.find(" longer"))).value();
    CHECK(findings(show, "stroke").empty());
}

TEST_CASE("a stroke that waits long for its air before it moves, and is turned on its way, has not stopped") {
    Show show = clean_show();
    show.rig.actuators[0].valve.supply_c_l_s_bar = 0.05;
    show.sequences[0].cues[0].length = 6s;
    AirMemo memo;
    const Stroke alone = work_out(show, show.sequences[0], memo).air.run->strokes[0];
    REQUIRE(alone.reached_s[0].value() > 0.3);  // it stands still for longer than a stall is
    show.sequences[0].cues[0].length = Micros{std::llround(alone.reached_s[1].value() * 1e6)};
    const auto found = findings(show, "stroke");
    REQUIRE(found.size() == 1);
    CHECK(found[0].what == "\"Keeper\" is turned before it is fully out");
}

TEST_CASE("a valve whose pilot lacks pressure is told by the pressure it has") {
    Show show = clean_show();
    show.rig.actuators[0].valve.least_kpa_gauge = 700.0;
    const auto found = findings(show, "stroke");
    REQUIRE(!found.empty());
    CHECK(found[0].what == "The valve of \"Keeper\" does not shift");
    CHECK(found[0].figure == "5 bar");
    CHECK(found[0].limit == "at least 7 bar");
    CHECK(found[0].remedy == "Set the regulator to 7 bar");
}
