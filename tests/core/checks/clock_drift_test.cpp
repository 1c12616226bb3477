// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// A second board with the lamp on it, and a cue that ends at 10 min: 600 s of drift.
Show two_boards() {
    Show show = clean_show();
    Board pier;
    pier.id = {77};
    pier.name = "pier";
    pier.outputs = 8.0;
    show.rig.boards[0].clock_ppm = 50.0;
    pier.clock_ppm = 50.0;
    show.rig.boards.push_back(pier);
    show.rig.channels[1].board = BoardId{77};
    show.sequences[0].length = 11min;
    show.sequences[0].cues[1].at = 599s;
    show.sequences[0].cues[1].length = 1s;
    return show;
}

}  // namespace

TEST_CASE("two boards whose clocks drift apart") {
    Show show = two_boards();
    // Common practice, no source: a crystal is off by 50 ppm or 3 ms a minute; two of them by 60 ms in 10
    // min.
    CHECK(
        texts(show, "clock_drift") ==
        Lines{
            "warn: 10:00.000: The clock of \"box\" may be apart from that of \"pier\" by the last change in "
            "\"scare\": 60 ms, limit at most 40 ms. Take clocks that are off by at most 66 ppm together, or "
            "part the sequence in two."});
    show.rig.boards[1].clock_ppm = 16.0;
    CHECK(texts(show, "clock_drift").empty());
}

TEST_CASE("a board that drifts apart from the sound, while it plays") {
    Show show = clean_show();
    show.rig.boards[0].clock_ppm = 5000.0;  // a ceramic resonator: 0.5 %, 300 ms a minute
    show.rig.speaker.clock_ppm = 0.0;
    show.sequences[0].length = 2min;
    show.sequences[0].cues[1].at = 59s;
    show.sequences[0].cues[1].length = 1s;
    CHECK(texts(show, "clock_drift").empty());  // no sound
    SoundClip clip;
    clip.id = {60};
    clip.length = 90s;
    show.sequences[0].clips.push_back(clip);
    REQUIRE(findings(show, "clock_drift").size() == 1);
    CHECK(findings(show, "clock_drift")[0].figure == "300 ms");
    show.sequences[0].clips[0].length = 5s;  // the last change within it is at 3 s
    CHECK(texts(show, "clock_drift").empty());
}

TEST_CASE("a clock that nobody has rated is not checked") {
    Show show = two_boards();
    show.rig.boards[1].clock_ppm.reset();
    CHECK(texts(show, "clock_drift") ==
          Lines{"note: Not checked: no clock tolerance of \"pier\". Fill in the clock tolerance of "
                "\"pier\"."});
    SoundClip clip;
    clip.id = {60};
    clip.length = 20min;
    show.sequences[0].clips.push_back(clip);
    CHECK(findings(show, "clock_drift").size() == 2);
}
