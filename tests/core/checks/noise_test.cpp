// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/tone.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// 8 s of -10 LUFS from a loudspeaker of 90 dB at 1 W and 1 m, heard at 1 m: 80 dBA at 1 W, and 10 dB more
/// for each tenfold of power.
Show loud_show(double power_w) {
    Show show = show_with_tone(0s);
    show.sequences[0].length = 8s;
    show.sequences[0].cues.clear();
    show.rig.speaker.power_w = power_w;
    show.rig.speaker.sensitivity_db = 90.0;
    show.rig.speaker.distance_m = 1.0;
    show.night.hours = 5.0;
    show.night.groups_per_h = 40.0;
    return show;
}

}  // namespace

TEST_CASE("the level is held against what staff may bear in a night and visitors in a run") {
    const testing::TemporaryFolder folder;
    write_tone(folder.path() / "tone.wav", 8.0, -10.0);
    SoundShelf shelf(folder.path());
    // 200 runs of 8 s are 0.444 h. NIOSH allows that at 85 + 3 log2(8 / 0.444) = 97.5 dBA.
    CHECK(sound_findings(loud_show(10.0), shelf, "noise").empty());
    const auto louder = sound_findings(loud_show(100.0), shelf, "noise");
    REQUIRE(louder.size() == 1);
    CHECK(louder[0].severity == Severity::warn);
    // 0.444 h at 100 dBA: NIOSH allows 0.25 h (178 %), OSHA 2 h (22 %).
    CHECK(louder[0].figure == "about 100 dBA, 178 % of a day");
    CHECK(louder[0].limit == "at most 100 % (NIOSH 98-126)");
    const auto too_loud = sound_findings(loud_show(10'000.0), shelf, "noise");
    REQUIRE(too_loud.size() == 2);
    CHECK(too_loud[0].severity == Severity::stop);
    CHECK(too_loud[0].figure == "about 120 dBA");
    // 0.444 h at 120 dBA: OSHA allows 0.125 h, by its formula.
    CHECK(too_loud[1].figure == "about 120 dBA, 356 % of a day");
}

TEST_CASE("what is not known of the noise is not checked") {
    const testing::TemporaryFolder folder;
    write_tone(folder.path() / "tone.wav", 8.0, -10.0);
    SoundShelf shelf(folder.path());
    Show show = loud_show(10.0);
    show.night.hours.reset();
    auto found = sound_findings(show, shelf, "noise");
    REQUIRE(found.size() == 1);
    CHECK(found[0].what == "Not checked: no hours of the night and groups an hour, for the noise of staff");
    show.rig.speaker.distance_m.reset();
    found = sound_findings(show, shelf, "noise");
    REQUIRE(found.size() == 1);
    CHECK(found[0].place.field == "speaker.distance_m");
    show.sequences[0].clips.clear();
    CHECK(sound_findings(show, shelf, "noise").empty());
}
