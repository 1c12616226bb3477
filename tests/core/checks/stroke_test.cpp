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
