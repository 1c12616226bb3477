// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/clip.hpp"

#include "core/show/validity.hpp"
#include "core/sound/content.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

using namespace gasp;

namespace {

constexpr int wav = SF_FORMAT_WAV | SF_FORMAT_PCM_16;

}  // namespace

TEST_CASE("The clip of a file is its whole length under the name given") {
    const test::Folder folder;
    test::write_sound(folder / "voice.wav", wav, 8000, 2, test::random_samples(20'001, 2, 1));
    const Result<SoundClip> clip = whole_clip(folder / "voice.wav", "voices/keeper.wav");
    REQUIRE(clip);
    CHECK(clip->file == "voices/keeper.wav");
    CHECK(clip->content == content_of(folder / "voice.wav").value());
    CHECK(clip->file_length == Micros{2'500'125});
    CHECK(clip->length == clip->file_length);
    CHECK(clip->start == Micros{0});
    CHECK(clip->from == Micros{0});
}

TEST_CASE("A new show of a sound is named after it and lasts whole seconds") {
    const test::Folder folder;
    const auto of_frames = [&](std::int64_t frames) {
        test::write_sound(folder / "keeper. take 2.wav", wav, 8000, 1, test::random_samples(frames, 1, 2));
        return show_of_sound(folder / "keeper. take 2.wav").value();
    };
    const Show show = of_frames(16'001);
    CHECK(breaches(show).empty());
    CHECK(show.name == "keeper. take 2");
    REQUIRE(show.sequences.size() == 1);
    CHECK(show.sequences[0].kind == SequenceKind::triggered);
    CHECK(show.sequences[0].length == Micros{3'000'000});
    REQUIRE(show.sequences[0].clips.size() == 1);
    CHECK(show.sequences[0].clips[0].file == "keeper. take 2.wav");
    CHECK(show.sequences[0].clips[0].length == Micros{2'000'125});
    CHECK(of_frames(16'000).sequences[0].length == Micros{2'000'000});
}

TEST_CASE("A show is not made of what is no sound, or of a name it cannot hold") {
    const test::Folder folder;
    test::write_bytes(folder / "text.wav", "lamp on at 3");
    test::write_sound(folder / "a\\b.wav", wav, 8000, 1, test::random_samples(100, 1, 3));
    for (const char* name : {"text.wav", "none.wav", "a\\b.wav"}) {
        CAPTURE(name);
        const Result<Show> show = show_of_sound(folder / name);
        REQUIRE_FALSE(show);
        CHECK(show.error().where == (folder / name).string());
        CHECK_FALSE(show.error().remedy.empty());
    }
}

TEST_CASE("A sound is told from a show by the ending of its name") {
    for (const char* name : {"a.wav", "a.FLAC", "folder.gasp/a.b.Ogg"}) {
        CAPTURE(name);
        CHECK(named_like_sound(name));
    }
    for (const char* name : {"a.gasp", "wav", ".wav", "a.", "a.wav.gasp", "", "a.wave"}) {
        CAPTURE(name);
        CHECK_FALSE(named_like_sound(name));
    }
}
