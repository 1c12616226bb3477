// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("cues before, across and after the sequence") {
    Show show = clean_show();
    Mark mark;
    mark.id = {50};
    mark.name = "light";
    mark.time = 100ms;
    show.sequences[0].marks.push_back(mark);
    Cue early = cue(1003, lamp, -350ms, 300ms);
    early.mark = mark.id;
    show.sequences[0].cues = {early, cue(1004, lamp, 9500ms, 700ms), cue(1005, lamp, 11s, 1s)};
    CHECK(texts(show, "outside") == Lines{"warn: 0:00.000: Cue 1003 begins before its sequence and is cut: "
                                          "begins 250 ms too early, limit from "
                                          "0:00.000. Move the cue 250 ms later.",
                                          "warn: 0:09.500: Cue 1004 is cut by the end of its sequence: ends "
                                          "at 0:10.200, limit up to 0:10.000. "
                                          "Lengthen the sequence by 200 ms.",
                                          "warn: 0:10.000: Cue 1005 lies after the end of its sequence: ends "
                                          "at 0:12.000, limit up to 0:10.000. "
                                          "Lengthen the sequence by 2 s."});
}

TEST_CASE("a cue that begins when the sound is over is worth a note") {
    Show show = clean_show();
    SoundClip clip;
    clip.id = {60};
    clip.file = "voice.wav";
    clip.file_length = clip.length = 2s;
    clip.start = 500ms;
    show.sequences[0].clips.push_back(clip);
    CHECK(texts(show, "outside").empty());
    show.sequences[0].cues.push_back(cue(1003, lamp, 5s, 1s));
    CHECK(texts(show, "outside") ==
          Lines{"note: 0:05.000: Cue 1003 begins when the sound is over: begins at 0:05.000, limit "
                "before 0:02.500. Move the cue 3.5 s earlier if the sound is to end last."});
    for (std::uint32_t i = 0; i < 1000; ++i) {
        show.sequences[0].cues.push_back(cue(2000 + i, lamp, 4s + i * 1ms, 1ms));
    }
    CHECK(texts(show, "outside") ==
          Lines{"note: 0:04.000: Cue 2000 and 1000 more begin when the sound is over: the first at 0:04.000, "
                "limit before 0:02.500. Move them before 0:02.500 if the sound is to end last."});
}
