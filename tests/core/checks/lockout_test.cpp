// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a lockout that ends before the figure is back") {
    Show show = stated_show();
    show.sequences[0].cues[1].length = 500ms;
    show.rig.sensor.lockout_s = 3.5;  // sent back at 3 s, back at 3.9 s
    CHECK(texts(show, "lockout") ==
          Lines{"stop: 0:03.500: The lockout of \"scare\" ends before \"Keeper\" is back: 3.5 s, "
                "limit at least 3.9 s. Set the lockout to 3.9 s."});
    show.rig.sensor.lockout_s = 3.9;
    CHECK(texts(show, "lockout").empty());
}

TEST_CASE("a lockout that ends before the sound, or before the last channel") {
    Show show = stated_show();
    show.rig.sensor.lockout_s = 3.95;  // the lamp goes out at 4 s
    CHECK(texts(show, "lockout") ==
          Lines{"stop: 0:03.950: The lockout of \"scare\" ends before the run does: 3.95 s, limit "
                "at least 4 s. Set the lockout to 4 s."});
    SoundClip clip;
    clip.id = {60};
    clip.start = 2s;
    clip.length = 5s;
    show.sequences[0].clips.push_back(clip);
    CHECK(findings(show, "lockout")[0].limit == "at least 7 s");
}

TEST_CASE("blank inputs of the lockout are not checked; a sequence without trigger has none") {
    Show show = stated_show();
    show.rig.sensor.lockout_s.reset();
    show.rig.actuators[0].motion.back_ms.reset();
    CHECK(texts(show, "lockout") ==
          Lines{"note: Not checked: no time back of \"Keeper\". Fill in the time back of \"Keeper\".",
                "note: Not checked: no lockout of the sensor. Fill in the lockout of the sensor."});
    show.sequences[0].kind = SequenceKind::idle;
    CHECK(texts(show, "lockout").empty());
}
