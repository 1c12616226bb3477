// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a relay or lamp on or off too briefly") {
    Show show = clean_show();
    show.sequences[0].cues = {cue(1, lamp, 1s, 15ms), cue(2, lamp, 1025ms, 1s)};
    CHECK(texts(show, "channel_dwell") == Lines{"warn: 0:01.000: Channel \"lamp\" has power too briefly in "
                                                "cue 1: 15 ms, limit at least 20 ms. Lengthen "
                                                "cue 1 by 5 ms.",
                                                "warn: 0:01.015: Channel \"lamp\" is without power too "
                                                "briefly before cue 2: 10 ms, limit at least 20 ms. "
                                                "Start cue 2 10 ms later."});
}

TEST_CASE("flashes too fast for the relay are said once, with the rate that is not") {
    Show show = clean_show();
    Cue flashing = cue(1, lamp, 1s, 2s);
    flashing.flashes = Flashes{40.0, 50.0};  // 12.5 ms on, 12.5 ms off; on the tick 13 and 12
    show.sequences[0].cues = {flashing};
    CHECK(texts(show, "channel_dwell") == Lines{"warn: 0:01.000: Channel \"lamp\" has power too briefly in "
                                                "cue 1: 13 ms, limit at least 20 ms. Lower its "
                                                "rate to 25 Hz.",
                                                "warn: 0:01.013: Channel \"lamp\" is without power too "
                                                "briefly in cue 1: 12 ms, limit at least 20 ms. "
                                                "Lower its rate to 25 Hz."});
    show.sequences[0].cues[0].flashes->rate_hz = 25.0;
    CHECK(texts(show, "channel_dwell").empty());
}

TEST_CASE("a last flash cut short asks for a longer cue") {
    Show show = clean_show();
    Cue flashing = cue(1, lamp, 1s, 1010ms);
    flashing.flashes = Flashes{2.0, 50.0};
    show.sequences[0].cues = {flashing};
    CHECK(texts(show, "channel_dwell") ==
          Lines{"warn: 0:02.000: Channel \"lamp\" has power too briefly in cue 1: 10 ms, "
                "limit at least 20 ms. Lengthen cue 1 by 10 ms."});
}

TEST_CASE("blank limits of a used channel are not checked; those of an unused one are not missed") {
    Show show = clean_show();
    show.rig.channels[1].shortest_on_ms.reset();
    show.rig.channels.push_back(clean_channel({22}, "spare", 3));
    show.rig.channels.back().shortest_on_ms.reset();
    CHECK(texts(show, "channel_dwell") ==
          Lines{"note: Not checked: no shortest on of channel \"lamp\". Fill in the "
                "shortest on of channel \"lamp\"."});
    CHECK(findings(show, "channel_dwell")[0].place.channel == lamp);
    CHECK(findings(show, "channel_dwell")[0].place.field == "shortest_on_ms");
}

TEST_CASE("a limit of 0 is an answer, not a blank") {
    Show show = clean_show();
    show.rig.channels[1].shortest_on_ms = 0.0;
    show.rig.channels[1].shortest_off_ms = 0.0;
    show.sequences[0].cues[1].length = 1ms;
    CHECK(texts(show, "channel_dwell").empty());
}
