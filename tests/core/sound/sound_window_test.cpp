// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/sound_window.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

using namespace gasp;

TEST_CASE("a window holds the file's own samples, cut to what there is", "[sound_window]") {
    const test::Folder folder;
    const auto samples = test::random_samples(5000, 2, 3);
    const int format = GENERATE(SF_FORMAT_WAV | SF_FORMAT_PCM_16, SF_FORMAT_FLAC | SF_FORMAT_PCM_16);
    test::write_sound(folder / "a", format, 48000, 2, samples);
    const auto window = read_window(folder / "a", 1234, 100);
    REQUIRE(window);
    CHECK(window->first == 1234);
    CHECK(window->end() == 1334);
    CHECK(std::equal(window->samples.begin(), window->samples.end(), samples.begin() + 2 * 1234));
    CHECK(read_window(folder / "a", 4990, 100)->end() == 5000);
    CHECK(read_window(folder / "a", 6000, 100)->samples.empty());
    CHECK_FALSE(read_window(folder / "nowhere", 0, 100));
}

TEST_CASE("columns of a window have what the samples in them have", "[sound_window]") {
    const SoundWindow window{100, 2, test::random_samples(3000, 2, 8)};
    const double step = GENERATE(3.0, 17.25, 200.0);
    std::vector<Peak> peaks(10);
    columns(window, 1, 150.0, step, peaks);
    for (std::size_t i = 0; i < peaks.size(); ++i) {
        for (std::int64_t frame = 100; frame < window.end(); ++frame) {
            const double from = 150.0 + static_cast<double>(i) * step;
            if (static_cast<double>(frame) >= from && static_cast<double>(frame) < from + step) {
                const std::int16_t sample = window.samples[static_cast<std::size_t>(2 * (frame - 100) + 1)];
                REQUIRE(peaks[i].min <= sample);
                REQUIRE(peaks[i].max >= sample);
            }
        }
        if (i > 0) {  // neighbours meet
            CHECK(peaks[i].min <= peaks[i - 1].max);
            CHECK(peaks[i].max >= peaks[i - 1].min);
        }
    }
}

TEST_CASE("where a sample is many columns wide, columns follow the line between samples", "[sound_window]") {
    const SoundWindow window{0, 1, {0, 1000, -1000}};
    std::vector<Peak> peaks(24);
    columns(window, 0, 0.0, 0.1, peaks);
    CHECK(peaks[0] == Peak{0, 100, 0});
    CHECK(peaks[5].min == 500);
    CHECK(peaks[5].max == 600);
    CHECK(peaks[9].max == 1000);
    CHECK(peaks[15].max == 0);
    CHECK(peaks[15].min == -200);
    std::vector<Peak> outside(3);
    columns(window, 0, 4.0, 0.1, outside);
    CHECK(outside[0] == Peak{});
}
