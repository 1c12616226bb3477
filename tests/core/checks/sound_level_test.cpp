// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/tone.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a mix within full scale is no finding, one beyond is a warning that says by how much") {
    const testing::TemporaryFolder folder;
    write_tone(folder.path() / "tone.wav", 2.0, -4.0);
    SoundShelf shelf(folder.path());
    Show show = show_with_tone(1s);
    CHECK(sound_findings(show, shelf, "sound_level").empty());
    SoundClip second = show.sequences[0].clips[0];
    second.id = {501};
    second.lane = 2;
    show.sequences[0].clips.push_back(second);
    const auto found = sound_findings(show, shelf, "sound_level");
    REQUIRE(found.size() == 1);
    // Two alike are 20 log10(2) = 6.02 dB above one.
    CHECK(text(found[0]) ==
          "warn: The mix of \"scare\" clips: peak 2.1 dB above full scale, limit at most 0 dBFS. Lower the "
          "gain of its clips by 2.1 dB.");
    show.sequences[0].clips[1].gain_db = -20.0;
    CHECK(sound_findings(show, shelf, "sound_level").empty());
    write_tone(folder.path() / "tone.wav", 2.0, -0.1);
    CHECK(sound_findings(show, shelf, "sound_level").size() == 1);
}

TEST_CASE("a mix that is given up is measured anew when it is asked for again") {
    const testing::TemporaryFolder folder;
    write_tone(folder.path() / "tone.wav", 2.0, 0.0);
    SoundShelf shelf(folder.path());
    const Sequence sequence = show_with_tone(1s).sequences[0];
    CHECK(shelf.mix(sequence, [] { return true; }).rate == 0);
    CHECK(shelf.mix(sequence, [] { return false; }).loudness_lufs);
}
