// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peaks.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <thread>
#include <vector>

using namespace gasp;

namespace {

const std::atomic<bool> never{false};

std::shared_ptr<const PeakPyramid> built(const std::filesystem::path& path, int threads = 2) {
    Result<PeakBuilder> builder = PeakBuilder::open(path, {threads});
    REQUIRE(builder);
    const Result<void> done = builder->build(never, {});
    INFO((done ? "" : done.error().text()));
    REQUIRE(done);
    return builder->pyramid();
}

/// What a column must be, from the samples themselves: every bin of 256 frames it touches, whole.
Peak brute_force(std::span<const std::int16_t> samples, int channels, int channel, double from, double to) {
    const std::int64_t frames = static_cast<std::int64_t>(samples.size()) / channels;
    if (to <= 0 || from >= static_cast<double>(frames)) {
        return {};
    }
    const auto first = static_cast<std::int64_t>(std::max(0.0, from)) / 256 * 256;
    const auto last = std::min(frames, static_cast<std::int64_t>(std::ceil(std::min(to, 1e12) / 256)) * 256);
    Peak peak{INT16_MAX, INT16_MIN, 0};
    double squares = 0;
    for (std::int64_t i = first; i < last; ++i) {
        const std::int16_t value = samples[static_cast<std::size_t>(i * channels + channel)];
        peak.min = std::min(peak.min, value);
        peak.max = std::max(peak.max, value);
        squares += static_cast<double>(value) * value;
    }
    peak.rms = static_cast<std::uint16_t>(std::lrint(std::sqrt(squares / static_cast<double>(last - first))));
    return peak;
}

void check_random_columns(const PeakPyramid& pyramid, std::span<const std::int16_t> samples, unsigned seed) {
    std::mt19937 random(seed);
    const double frames = static_cast<double>(pyramid.frames());
    for (int round = 0; round < 60; ++round) {
        const double step = std::exp(std::uniform_real_distribution<>(0.0, std::log(frames * 1.5))(random));
        const double first = std::uniform_real_distribution<>(-2.0 * step, frames)(random);
        const int channel = static_cast<int>(random() % static_cast<unsigned>(pyramid.channels()));
        std::vector<Peak> out(8);
        std::vector<std::uint8_t> provisional(8, 9);
        pyramid.columns(channel, first, step, out, provisional);
        for (std::size_t i = 0; i < out.size(); ++i) {
            const double from = first + static_cast<double>(i) * step;
            const double to = first + static_cast<double>(i + 1) * step;
            const Peak wanted = brute_force(samples, pyramid.channels(), channel, from, to);
            INFO("channel " << channel << ", frames " << from << " to " << to);
            REQUIRE(out[i].min == wanted.min);
            REQUIRE(out[i].max == wanted.max);
            REQUIRE(std::abs(out[i].rms - wanted.rms) <= 1);
            REQUIRE(provisional[i] == 0);
        }
    }
}

}  // namespace

TEST_CASE("Columns at random zooms are those of the samples") {
    const test::Folder folder;
    const auto path = folder / "random.wav";
    // Shorter than a bin, one bin, odd lengths, and more than two segments.
    const std::int64_t frames = GENERATE(1, 255, 256, 257, 100'003, 2'300'001);
    const int channels = GENERATE(1, 2, 3);
    const auto samples = test::random_samples(frames, channels, static_cast<unsigned>(frames));
    test::write_sound(path, SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, channels, samples);
    const auto pyramid = built(path);
    CHECK(pyramid->frames() == frames);
    CHECK(pyramid->built_frames() == frames);
    CHECK(pyramid->true_frames() == frames);
    CHECK(pyramid->complete());
    CHECK(pyramid->rate() == 48000);
    CHECK(pyramid->channels() == channels);
    check_random_columns(*pyramid, samples, static_cast<unsigned>(frames + channels));
}
