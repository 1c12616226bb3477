// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/sound_shelf.hpp"
#include "tests/core/checks/rig.hpp"
#include "tests/core/file/temporary_folder.hpp"
#include "tests/support/catch.hpp"

#include <cstdint>
#include <cstring>
#include <fstream>

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// A mono file of 8-bit PCM at 8 kHz: RIFF, "fmt " and "data" as in Microsoft's and IBM's "Multimedia
/// Programming Interface and Data Specifications 1.0", 1991.
void write_wav(const std::filesystem::path& path, std::uint32_t seconds) {
    const std::uint32_t bytes = 8000 * seconds;
    const auto word = [](std::uint32_t value) {
        std::string text(4, '\0');
        std::memcpy(text.data(), &value, 4);
        return text;
    };
    std::ofstream(path, std::ios::binary)
        << "RIFF" << word(36 + bytes) << "WAVEfmt " << word(16) << word(0x0001'0001) << word(8000)
        << word(8000) << word(0x0008'0001) << "data" << word(bytes) << std::string(bytes, '\x80');
}

Show show_with_voice() {
    Show show = clean_show();
    SoundClip clip;
    clip.id = {500};
    clip.file = "voice.wav";
    clip.start = 1s;
    clip.from = 500ms;
    clip.length = 2500ms;
    show.sequences[0].clips = {clip};
    return show;
}

std::vector<Finding> sound_findings(const Show& show, SoundShelf& shelf) {
    auto found = check(show, show.sequences[0], {.sounds = &shelf});
    std::erase_if(found, [](const Finding& finding) { return finding.check != "sound_file"; });
    return found;
}

}  // namespace

TEST_CASE("a sound that is there and long enough is no finding") {
    const testing::TemporaryFolder folder;
    write_wav(folder.path() / "voice.wav", 3);
    SoundShelf shelf(folder.path());
    CHECK(sound_findings(show_with_voice(), shelf).empty());
}

TEST_CASE("a sound that is missing or no sound is a stop, until it is put back") {
    const testing::TemporaryFolder folder;
    SoundShelf shelf(folder.path());
    auto found = sound_findings(show_with_voice(), shelf);
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].place.time == 1s);
    CHECK(found[0].what == "Sound \"voice.wav\" cannot be played: There is no such sound file");
    CHECK_FALSE(found[0].remedy.empty());
    std::ofstream(folder.path() / "voice.wav") << "lamp on at 3";
    CHECK(sound_findings(show_with_voice(), shelf).size() == 1);
    write_wav(folder.path() / "voice.wav", 3);
    CHECK(sound_findings(show_with_voice(), shelf).empty());
}

TEST_CASE("a sound shorter than its clip is a warning") {
    const testing::TemporaryFolder folder;
    write_wav(folder.path() / "voice.wav", 2);
    SoundShelf shelf(folder.path());
    const auto found = sound_findings(show_with_voice(), shelf);
    REQUIRE(found.size() == 1);
    CHECK(text(found[0]) ==
          "warn: 0:01.000: Sound \"voice.wav\" ends before its clip does: 2 s, limit at least "
          "3 s. Put the whole file back, or shorten its clip by 1 s.");
}

TEST_CASE("without a shelf no sound file is asked for") {
    CHECK(findings(show_with_voice(), "sound_file").empty());
}
