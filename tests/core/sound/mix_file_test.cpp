// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/mix_file.hpp"

#include "core/sound/mix.hpp"
#include "core/sound/sound_file.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <cmath>
#include <fstream>

using namespace gasp;
using namespace std::chrono_literals;

namespace {
/// A sequence of 2 s with noise from 300 ms to 1300 ms.
struct Scene {
    test::Folder folder;
    Sequence sequence;

    Scene() {
        auto samples = test::random_samples(mix_rate, 1, 3);
        samples.front() = 9000;
        test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, mix_rate, 1, samples);
        SoundClip clip;
        clip.file = "a.wav";
        clip.start = 300ms;
        clip.length = 1s;
        sequence.length = 2s;
        sequence.clips = {clip};
    }

    [[nodiscard]] std::vector<std::int16_t> written(const MixDelivery& delivery, const char* name) const {
        REQUIRE(write_mix(sequence, folder.path(), delivery, folder / name, test::never, {}));
        Result<SoundFile> file = SoundFile::open(folder / name);
        REQUIRE(file);
        std::vector<std::int16_t> samples(2 * static_cast<std::size_t>(file->info().frames));
        REQUIRE(file->read(samples) == file->info().frames);
        return samples;
    }
    [[nodiscard]] std::size_t files() const {
        return static_cast<std::size_t>(
            std::distance(std::filesystem::directory_iterator(folder.path()), {}));
    }
};

}  // namespace

TEST_CASE("what is handed over is the mix to the sample, in WAV and in FLAC") {
    const Scene scene;
    Mix mix = Mix::open(scene.sequence, scene.folder.path(), mix_rate);
    std::vector<float> heard(2 * static_cast<std::size_t>(mix.frames()));
    mix.read(heard);
    const auto wav = scene.written({MixForm::wav, mix_rate, 0ms}, "a-mix.wav");
    REQUIRE(wav.size() == heard.size());
    for (std::size_t i = 0; i < heard.size(); ++i) {
        REQUIRE(wav[i] == std::lrintf(heard[i] * 32768.0F));
    }
    CHECK(scene.written({MixForm::flac, mix_rate, 0ms}, "a-mix.flac") == wav);
    CHECK(scene.files() == 3);
}

TEST_CASE("the head of the file is shorter by the player's lag, so that all is heard in its place") {
    const Scene scene;
    const auto prompt = scene.written({MixForm::wav, mix_rate, 0ms}, "prompt.wav");
    const auto late = scene.written({MixForm::wav, mix_rate, 200ms}, "late.wav");
    const std::size_t lag = 2 * 8820;
    REQUIRE(late.size() + lag == prompt.size());
    CHECK(std::equal(late.begin(), late.end(), prompt.begin() + static_cast<std::ptrdiff_t>(lag)));

    const MixReport whole = report_of_mix(scene.sequence, scene.folder.path(), test::never, {});
    REQUIRE(whole.first_sound);
    CHECK(to_ms(*whole.first_sound) == Approx(300.0).margin(1.0));
    CHECK(lost_to_lag(whole, 200ms) == 0ms);
    CHECK(to_ms(lost_to_lag(whole, 450ms)) == Approx(150.0).margin(1.0));
    CHECK(lost_to_lag(MixReport{}, 450ms) == 0ms);
}

TEST_CASE("a mix is measured as the listener hears it") {
    Scene scene;
    test::write_sound(scene.folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, mix_rate, 1,
                      std::vector<float>(mix_rate, 0.75F));
    scene.sequence.clips.push_back(scene.sequence.clips.front());
    const MixReport both = report_of_mix(scene.sequence, scene.folder.path(), test::never, {});
    CHECK(*both.peak_dbfs == Approx(20.0 * std::log10(1.5)));
    CHECK(both.clipped_samples == 2 * mix_rate);
    const MixReport one = report_of_clip(scene.sequence.clips.front(), scene.folder.path(), test::never, {});
    CHECK(*one.peak_dbfs == Approx(20.0 * std::log10(0.75)));
    CHECK(one.clipped_samples == 0);
    CHECK(one.frames == mix_rate);
}

TEST_CASE("nothing is left behind of a mix that fails or is given up") {
    Scene scene;
    const std::atomic<bool> at_once{true};
    CHECK_FALSE(write_mix(scene.sequence, scene.folder.path(), {}, scene.folder / "x.wav", at_once, {}));
    const auto nowhere =
        write_mix(scene.sequence, scene.folder.path(), {}, scene.folder / "no" / "x.wav", test::never, {});
    REQUIRE_FALSE(nowhere);
    CHECK(nowhere.error().where.ends_with("x.wav"));
    scene.sequence.clips.front().file = "gone.wav";
    const auto missing =
        write_mix(scene.sequence, scene.folder.path(), {}, scene.folder / "x.wav", test::never, {});
    REQUIRE_FALSE(missing);
    CHECK(missing.error().where.find("gone.wav") != std::string::npos);
    scene.sequence.length = 8h;
    scene.sequence.clips.clear();
    CHECK_FALSE(write_mix(scene.sequence, scene.folder.path(), {}, scene.folder / "x.wav", test::never, {}));
    CHECK(scene.files() == 1);
}

TEST_CASE("files are named for players that read little") {
    CHECK(mix_file_name(1, "The Keeper's Locker", MixForm::wav) == "001-the-keepers-locker.wav");
    CHECK(mix_file_name(12, "  Fog / Signal!", MixForm::flac) == "012-fog-signal.flac");
    CHECK(mix_file_name(3, "\u706f\u53f0", MixForm::wav) == "003-sequence.wav");
    CHECK(mix_file_name(3, std::string(200, 'x'), MixForm::wav).size() == 48);
}

TEST_CASE("a blank lag is none") {
    Speaker speaker;
    CHECK(player_lag(speaker) == 0ms);
    speaker.player_lag_ms = 123.4567;
    CHECK(player_lag(speaker) == 123457us);
}
