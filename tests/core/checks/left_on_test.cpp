// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a cue that reaches the end leaves its channel on: a stop on a valve") {
    Show show = clean_show();
    show.sequences[0].cues[0] = cue(1001, lunge, 8s, 2s);
    show.sequences[0].cues[1] = cue(1002, lamp, 8s, 2500ms);
    CHECK(texts(show, "left_on") ==
          Lines{"stop: 0:10.000: Cue 1001 leaves channel \"lunge\" driven until the sequence ends and cuts "
                "it off: ends at "
                "0:10.000, limit before 0:10.000. Lengthen the sequence by 1 ms.",
                "warn: 0:10.000: Cue 1002 leaves channel \"lamp\" driven until the sequence ends and cuts it "
                "off: ends at "
                "0:10.500, limit before 0:10.000. Lengthen the sequence by 501 ms."});
    show.sequences[0].length += 501ms;
    CHECK(texts(show, "left_on").empty());
}
