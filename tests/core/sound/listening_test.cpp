// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/listening.hpp"

#include "core/sound/sound_file.hpp"
#include "core/sound/words.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

using namespace gasp;
using namespace gasp::test;

namespace {

constexpr int float_wav = SF_FORMAT_WAV | SF_FORMAT_FLOAT;
struct Burst {
    double begin_s;
    double end_s;
    double peak;
};

/// Sines of 400 Hz between silences, each begun and ended over 5 ms.
std::vector<float> bursts(double length_s, int rate, int channels, const std::vector<Burst>& all) {
    std::vector<float> samples(static_cast<std::size_t>(length_s * rate) *
                               static_cast<std::size_t>(channels));
    for (std::size_t i = 0; i < samples.size(); ++i) {
        const double time = static_cast<double>(i / static_cast<std::size_t>(channels)) / rate;
        for (const Burst& burst : all) {
            const double ramp =
                std::clamp(std::min(time - burst.begin_s, burst.end_s - time) / 0.005, 0.0, 1.0);
            samples[i] +=
                static_cast<float>(burst.peak * ramp * std::sin(2.0 * std::numbers::pi * 400.0 * time));
        }
    }
    return samples;
}

Heard heard_in(const std::filesystem::path& path, const OnsetOptions& options = {}) {
    return listen(path, options, test::never, {}).value();
}

double seconds(Micros time) {
    return static_cast<double>(time.count()) / 1e6;
}

}  // namespace

TEST_CASE("The envelope of a sine is its RMS, 3.01 dB below its peak, at any rate and count of channels") {
    const Folder folder;
    for (const int rate : {8000, 11025, 44100, 96000}) {
        for (const int channels : {1, 2, 6}) {
            write_sound(folder / "sine.wav", float_wav, rate, channels,
                        bursts(1.0, rate, channels, {{-1.0, 2.0, 0.5}}));
            const Envelope envelope = heard_in(folder / "sine.wav").envelope;
            CHECK(envelope.dbfs.size() == 200);
            for (std::size_t i = 4; i + 4 < envelope.dbfs.size(); ++i) {
                REQUIRE(envelope.dbfs[i] == Approx(20.0 * std::log10(0.5) - 3.0103).margin(0.25));
            }
        }
    }
}

TEST_CASE("Each burst after silence is one onset, within 10 ms and a hop of its beginning") {
    // The tolerance for clicks and bursts: one hop (5.8 ms) and 10 ms.
    const Folder folder;
    const std::vector<Burst> all{{0.5, 0.7, 0.5}, {1.013, 1.2, 0.1}, {1.9, 2.4, 0.8}, {2.611, 2.9, 0.4}};
    for (const int rate : {8000, 44100, 48000, 96000}) {
        write_sound(folder / "bursts.wav", float_wav, rate, 1, bursts(3.0, rate, 1, all));
        const std::vector<Micros> onsets = heard_in(folder / "bursts.wav").onsets;
        for (const Burst& burst : all) {
            INFO("burst at " << burst.begin_s << " s, " << rate << " Hz");
            CHECK(std::ranges::count_if(onsets, [&](Micros onset) {
                      return std::abs(seconds(onset) - burst.begin_s) <= 0.0158;
                  }) == 1);
        }
    }
}

TEST_CASE("A higher threshold of onsets never finds more of them in recorded prompts") {
    const std::vector<std::filesystem::path> prompts = recorded_prompts();
    REQUIRE(prompts.size() >= 20);
    std::size_t found = 0;
    for (std::size_t i = 0; i < 20; ++i) {
        const std::filesystem::path& prompt = prompts[i * prompts.size() / 20];
        const std::size_t few = heard_in(prompt, {1.0, -50.0, 80.0}).onsets.size();
        const std::size_t many = heard_in(prompt, {0.2, -50.0, 80.0}).onsets.size();
        INFO(prompt);
        CHECK(few <= many);
        found += many;
    }
    CHECK(found > 20);
}

TEST_CASE("Words are the stretches between pauses, told by their level with hysteresis") {
    const Folder folder;
    // The second dips to 28 dB below the loudest moment, between opening and closing level; the third is too
    // quiet to open; the fourth follows after too short a pause.
    write_sound(folder / "words.wav", float_wav, 48000, 1,
                bursts(5.0, 48000, 1,
                       {{0.5, 1.0, 0.8},
                        {1.5, 1.7, 0.4},
                        {1.7, 1.9, 0.03},
                        {1.9, 2.1, 0.4},
                        {2.6, 3.0, 0.02},
                        {3.5, 3.8, 0.5},
                        {3.86, 4.2, 0.5}}));
    const Envelope envelope = heard_in(folder / "words.wav").envelope;
    const std::vector<Word> words = words_of(envelope, {}).value();
    REQUIRE(words.size() == 3);
    const std::vector<Burst> expected{{0.5, 1.0, 0.8}, {1.5, 2.1, 0.4}, {3.5, 4.2, 0.5}};
    for (std::size_t i = 0; i < words.size(); ++i) {
        CHECK(seconds(words[i].begin) == Approx(expected[i].begin_s).margin(0.0101));
        CHECK(seconds(words[i].end) == Approx(expected[i].end_s).margin(0.0101));
        CHECK(words[i].loudest_dbfs == Approx(20.0 * std::log10(expected[i].peak) - 3.01).margin(0.3));
    }
    const LoudMoment loudest = loudest_of(envelope).value();
    CHECK(seconds(loudest.time) > 0.5);
    CHECK(seconds(loudest.time) < 1.0);
}

TEST_CASE("The words of a recorded prompt hold its sound, and its pauses are quiet") {
    for (const std::filesystem::path& prompt : speaker_test_prompts()) {
        const Envelope envelope = heard_in(prompt).envelope;
        WordOptions options;
        options.shortest_word_ms = 0.0;  // else a short knock is no word
        const std::vector<Word> words = words_of(envelope, options).value();
        const double loudest = loudest_of(envelope).value().dbfs;
        INFO(prompt);
        REQUIRE_FALSE(words.empty());
        for (std::size_t i = 0; i < envelope.dbfs.size(); ++i) {
            const Micros time = Envelope::step * static_cast<Micros::rep>(i);
            const bool in_word = std::ranges::any_of(
                words, [&](const Word& word) { return time >= word.begin && time < word.end; });
            if (!in_word) {
                REQUIRE(envelope.dbfs[i] < loudest - options.open_db);
            }
        }
    }
}

TEST_CASE("Silence has no words, no onsets and no loudest moment") {
    const Folder folder;
    write_sound(folder / "silence.wav", float_wav, 44100, 2, std::vector<float>(88200));
    const Heard heard = heard_in(folder / "silence.wav");
    CHECK(heard.onsets.empty());
    CHECK(words_of(heard.envelope, {}).value().empty());
    CHECK_FALSE(loudest_of(heard.envelope).has_value());
}

TEST_CASE("Listening can be cancelled, tells how far it is, and refuses what makes no sense") {
    const Folder folder;
    write_sound(folder / "long.wav", float_wav, 48000, 1, bursts(4.0, 48000, 1, {{0.1, 3.9, 0.5}}));
    std::vector<double> shares;
    REQUIRE(listen(folder / "long.wav", {}, test::never, [&](double share) {
                shares.push_back(share);
            }).has_value());
    CHECK(std::ranges::is_sorted(shares));
    CHECK(shares.back() == 1.0);
    const std::atomic<bool> at_once{true};
    CHECK(listen(folder / "long.wav", {}, at_once, {}).error().what == "stopped before its end");
    CHECK_FALSE(listen(folder / "none.wav", {}, test::never, {}).has_value());
    constexpr double nan = std::numeric_limits<double>::quiet_NaN();
    for (const OnsetOptions& bad : {OnsetOptions{0.0, -50.0, 80.0}, OnsetOptions{nan, -50.0, 80.0},
                                    OnsetOptions{0.3, 1.0, 80.0}, OnsetOptions{0.3, -50.0, -1.0}}) {
        CHECK(listen(folder / "long.wav", bad, test::never, {}).error().where == "onsets");
    }
    for (const WordOptions& bad : {WordOptions{0.0, 32.0, 40.0, 120.0}, WordOptions{26.0, 20.0, 40.0, 120.0},
                                   WordOptions{26.0, 32.0, nan, 120.0}, WordOptions{26.0, 32.0, 40.0, 1e9}}) {
        CHECK(words_of({{-10.0F}}, bad).error().where == "words");
    }
}
