// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("flashes faster than the board's tick") {
    Show show = clean_show();
    show.rig.boards[0].tick_ms = 10.0;
    show.sequences[0].cues[1].flashes = Flashes{30.0, 20.0};  // 6.667 ms on
    CHECK(texts(show, "pattern") ==
          Lines{"warn: 0:01.000: Cue 1002 flashes too fast for the tick of its board: 6.667 ms on "
                "or off, limit at least 10 ms. Lower its rate to 20 Hz."});
    show.sequences[0].cues[1].flashes->rate_hz = 20.0;
    CHECK(texts(show, "pattern").empty());
}

TEST_CASE("a cue that vanishes in the tick") {
    Show show = clean_show();
    show.rig.boards[0].tick_ms = 10.0;
    show.sequences[0].cues[1] = cue(1002, lamp, 1001ms, 3ms);
    CHECK(texts(show, "pattern") == Lines{"warn: 0:01.001: Cue 1002 is too short for the tick of its board "
                                          "and is not played: 3 ms, limit at least 10 "
                                          "ms. Lengthen the cue by 7 ms."});
}

TEST_CASE("more flashes than can be played are a stop") {
    Show show = clean_show();
    show.sequences[0].length = 24h;
    show.sequences[0].cues = {cue(1, lamp, 0s, 24h)};
    show.sequences[0].cues[0].flashes = Flashes{400.0, 50.0};
    CHECK(texts(show, "pattern") == Lines{"stop: 0:00.000: Cue 1 has more flashes than can be played; it "
                                          "rests after the last of them: 34560000 "
                                          "flashes, limit at most 2000000. Shorten the cue to 1:23:20.000."});
}
