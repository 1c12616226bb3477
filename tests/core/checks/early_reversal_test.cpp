// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a figure called out before it is back") {
    Show show = stated_show();
    show.sequences[0].cues.push_back(cue(1003, lunge, 3500ms, 1s));
    CHECK(texts(show, "early_reversal") == Lines{"warn: 0:03.500: \"Keeper\" is called out again before it "
                                                 "is back: 500 ms after it was sent back, limit at "
                                                 "least 900 ms. Start the later cue 400 ms later."});
    CHECK(findings(show, "early_reversal")[0].place.actuator == keeper);
    CHECK(findings(show, "early_reversal")[0].place.channel == lunge);
    show.sequences[0].cues.back().at = 3900ms;
    CHECK(texts(show, "early_reversal").empty());
}

TEST_CASE(
    "without its time back a figure called twice is not checked; called once there is nothing to check") {
    Show show = stated_show();
    show.rig.actuators[0].motion.back_ms.reset();
    CHECK(texts(show, "early_reversal").empty());
    show.sequences[0].cues.push_back(cue(1003, lunge, 3500ms, 1s));
    CHECK(texts(show, "early_reversal") ==
          Lines{"note: Not checked: no time back of \"Keeper\". Fill in the time back of \"Keeper\"."});
}
