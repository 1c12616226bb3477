// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("what the simulation lacks is named, what cannot be is refused") {
    CHECK(findings(clean_show(), "simulated").empty());
    CHECK(texts(stated_show(), "simulated") ==
          Lines{"note: Not checked: no supply conductance of the valve of \"Keeper\". Fill in the supply "
                "conductance of the valve of \"Keeper\"."});
    Show show = clean_show();
    show.rig.actuators[0].cylinder.rod_mm = 40.0;
    const auto found = findings(show, "simulated");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].place.field == "cylinder.rod_mm");
}

TEST_CASE("a sequence that moves nothing needs no simulation") {
    Show show = stated_show();
    show.sequences[0].cues = {cue(1, lamp, 1s, 1s)};
    CHECK(findings(show, "simulated").empty());
}
