// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a valve cue shorter than the valve's shortest dwell") {
    Show show = clean_show();
    show.sequences[0].cues[0].length = 20ms;
    CHECK(texts(show, "valve_dwell") ==
          Lines{"stop: 0:02.000: Valve \"Keeper\" has power too briefly in cue 1001: 20 ms, "
                "limit at least 50 ms. Lengthen cue 1001 by 30 ms."});
    show.sequences[0].cues[0].length = 50ms;
    CHECK(texts(show, "valve_dwell").empty());
}

TEST_CASE("a rest shorter than the valve's shortest") {
    Show show = clean_show();
    show.sequences[0].cues.push_back(cue(1003, lunge, 3060ms, 1s));
    CHECK(texts(show, "valve_dwell") == Lines{"stop: 0:03.000: Valve \"Keeper\" is without power too briefly "
                                              "before cue 1003: 60 ms, limit at least "
                                              "100 ms. Start cue 1003 40 ms later."});
    CHECK(findings(show, "valve_dwell")[0].place.other_cue == CueId{1001});
}

TEST_CASE("it is the joined dwell that counts, not its cues") {
    Show show = clean_show();
    show.sequences[0].cues = {cue(1, lunge, 2s, 30ms), cue(2, lunge, 2030ms, 30ms)};
    CHECK(texts(show, "valve_dwell").empty());
}

TEST_CASE("on a normally closed contact a cue is a rest of the valve") {
    Show show = clean_show();
    show.rig.channels[0].contact = Contact::normally_closed;
    show.sequences[0].cues[0].length = 60ms;                         // 60 ms without power; 100 needed
    show.sequences[0].cues.push_back(cue(1003, lunge, 2100ms, 1s));  // 40 ms with power; 50 needed
    const Lines lines = texts(show, "valve_dwell");
    REQUIRE(lines.size() == 2);
    CHECK(lines[0] ==
          "stop: 0:02.000: Valve \"Keeper\" is without power too briefly in cue 1001: 60 ms, limit at least "
          "100 ms. Lengthen cue 1001 by 40 ms.");
    CHECK(lines[1] ==
          "stop: 0:02.060: Valve \"Keeper\" has power too briefly before cue 1003: 40 ms, limit at least 50 "
          "ms. Start cue 1003 10 ms later.");
}

TEST_CASE("blank limits of a valve are not checked") {
    Show show = clean_show();
    show.rig.actuators[0].valve.shortest_on_ms.reset();
    show.rig.actuators[0].valve.shortest_off_ms.reset();
    show.sequences[0].cues.push_back(cue(1003, lunge, 5s, 1s));
    CHECK(
        texts(show, "valve_dwell") ==
        Lines{"note: Not checked: no shortest dwell of valve \"Keeper\". Fill in the shortest dwell of valve "
              "\"Keeper\".",
              "note: Not checked: no shortest rest of valve \"Keeper\". Fill in the shortest rest of valve "
              "\"Keeper\"."});
    CHECK(findings(show, "valve_dwell")[0].not_checked);
    CHECK(findings(show, "valve_dwell")[0].place.field == "valve.shortest_on_ms");
    CHECK(findings(show, "valve_dwell")[0].place.actuator == keeper);
    show.sequences[0].cues = {cue(1, lamp, 1s, 1s)};  // the valve is not used: nothing to say
    CHECK(texts(show, "valve_dwell").empty());
}
