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
    const Result<SoundReport> report = sound_report(folder / "a.wav");
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
    const Result<SoundReport> report = sound_report(folder / "a.wav");
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
    const Result<SoundReport> report = sound_report(folder / "a.wav");
    REQUIRE(report);
    CHECK(report->channels[0].peak_dbfs);
    CHECK_FALSE(report->loudness_lufs);
}
