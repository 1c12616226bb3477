// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/report.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <cmath>
#include <vector>

using namespace gasp;

TEST_CASE("Levels, silence and clipped samples are counted for each channel") {
    const test::Folder folder;
    std::vector<std::int16_t> samples(2 * 48000, 0);
    for (std::size_t frame = 1000; frame < 48000; ++frame) {
        samples[2 * frame] = frame % 2 == 0 ? 16384 : -16384;
    }
    samples[2 * 2000] = 32767;    // clipped, above
    samples[2 * 2001] = -32767;   // clipped, below
    samples[2 * 2002] = -32768;   // clipped, below
    samples[2 * 2003] = 32766;    // not clipped
    samples[2 * 700 + 1] = -328;  // -40 dB of 32768 is 327.68
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 2, samples);
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    CHECK(report->frames == 48000);
    CHECK(report->info.frames == 48000);
    REQUIRE(report->channels.size() == 2);
    CHECK(report->channels[0].clipped_samples == 3);
    CHECK(report->channels[1].clipped_samples == 0);
    CHECK(*report->channels[0].peak_dbfs == Approx(0.0).margin(1e-9));
    CHECK(*report->channels[1].peak_dbfs == Approx(20 * std::log10(328.0 / 32768)));
    double squares = 0.0;
    for (std::size_t frame = 0; frame < 48000; ++frame) {
        squares += std::pow(samples[2 * frame] / 32768.0, 2);
    }
    CHECK(*report->channels[0].rms_dbfs == Approx(10 * std::log10(squares / 48000)));
    CHECK(report->leading_silence_frames == 700);
}

TEST_CASE("Silence has no levels and is silent to its end") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1,
                      std::vector<std::int16_t>(9000, 0));
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    CHECK_FALSE(report->channels[0].peak_dbfs);
    CHECK_FALSE(report->channels[0].rms_dbfs);
    CHECK_FALSE(report->loudness_lufs);
    CHECK_FALSE(report->true_peak_dbtp);
    CHECK(report->leading_silence_frames == 9000);
}

TEST_CASE("A rate outside the loudness meter's is reported without loudness") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 10, 1,
                      test::random_samples(100, 1, 1));
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    CHECK(report->channels[0].peak_dbfs);
    CHECK_FALSE(report->loudness_lufs);
}

TEST_CASE("The loudest moment is found at any rate and channel count, also in a sound shorter than it") {
    const int rate = GENERATE(8000, 11025, 22050, 44100, 96000);
    const int channels = GENERATE(1, 2);
    CAPTURE(rate, channels);
    const test::Folder folder;
    // 0.2 s of a square wave within silence: half of the 0.4 s, so 3.01 dB below the same without end.
    const auto samples_of = [&](double silence_s, double sound_s) {
        std::vector<std::int16_t> samples(static_cast<std::size_t>((silence_s + sound_s) * rate) *
                                          static_cast<std::size_t>(channels));
        const auto from = static_cast<std::size_t>(silence_s * rate) * static_cast<std::size_t>(channels);
        for (std::size_t i = from; i < samples.size(); ++i) {
            samples[i] = i / static_cast<std::size_t>(4 * channels) % 2 == 0 ? 8192 : -8192;
        }
        return samples;
    };
    const auto loudest = [&](double silence_s, double sound_s) {
        test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, rate, channels,
                          samples_of(silence_s, sound_s));
        return sound_report(folder / "a.wav", test::never, {})->loudest.value();
    };
    const double endless = loudest(0.0, 4.0).momentary_lufs;
    CHECK(loudest(0.0, 4.0).short_term_lufs == Approx(endless).margin(0.1));
    CHECK(loudest(1.0, 0.2).momentary_lufs == Approx(endless - 3.01).margin(0.1));
    CHECK(loudest(0.0, 0.2).momentary_lufs == Approx(endless - 3.01).margin(0.1));
    CHECK(loudest(1.0, 0.2).short_term_lufs == Approx(endless - 11.76).margin(0.1));
    CHECK(to_ms(loudest(1.0, 0.2).at) == Approx(1000.0).margin(10.0));
    CHECK(to_ms(loudest(1.0, 0.6).at) == Approx(1200.0).margin(205.0));
}

TEST_CASE("A report is cancelled, and tells how far it is") {
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 8000, 1,
                      test::random_samples(80'000, 1, 1));
    double told = 0.0;
    REQUIRE(sound_report(folder / "a.wav", test::never, [&](double share) { told = share; }));
    CHECK(told == 1.0);
    std::atomic<bool> cancel{false};
    const auto report = sound_report(folder / "a.wav", cancel, [&](double) { cancel = true; });
    REQUIRE_FALSE(report);
    CHECK(report.error().what.find("stopped") != std::string::npos);
}
