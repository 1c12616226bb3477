// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/tone.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a player that is late loses what sounds before it, and nothing where there is silence") {
    const testing::TemporaryFolder folder;
    write_tone(folder.path() / "tone.wav", 2.0, -6.0);
    SoundShelf shelf(folder.path());
    Show show = show_with_tone(100ms);
    show.rig.speaker.player_lag_ms = 90.0;
    CHECK(sound_findings(show, shelf, "player_lag").empty());
    show.rig.speaker.player_lag_ms = 150.0;
    const auto found = sound_findings(show, shelf, "player_lag");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    CHECK(found[0].limit == "at least 150 ms");
    CHECK(found[0].remedy.starts_with("Begin all sound and cues later by 50 ms"));
    show.sequences[0].clips.clear();
    CHECK(sound_findings(show, shelf, "player_lag").empty());
}

TEST_CASE("a player whose lag nobody measured is not checked") {
    const testing::TemporaryFolder folder;
    SoundShelf shelf(folder.path());
    const auto found = sound_findings(show_with_tone(1s), shelf, "player_lag");
    REQUIRE(found.size() == 1);
    CHECK(found[0].not_checked);
    CHECK(found[0].what == "Not checked: no lag of the sound's player");
}
