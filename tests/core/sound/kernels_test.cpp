// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/kernels.hpp"

#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <cmath>
#include <cstring>
#include <limits>
#include <random>
#include <vector>

using namespace gasp;

TEST_CASE("Extents are those of the plain loop for every channel count and length") {
    for (int channels = 1; channels <= 8; ++channels) {
        for (std::int64_t frames = 0; frames <= 70; ++frames) {
            const auto samples = test::random_samples(frames, channels, static_cast<unsigned>(frames));
            std::vector<Extent> fast(static_cast<std::size_t>(channels));
            std::vector<Extent> plain(fast.size());
            add_extents(samples, fast);
            add_extents_plain(samples, plain);
            for (std::size_t channel = 0; channel < fast.size(); ++channel) {
                INFO(channels << " channels, " << frames << " frames, channel " << channel);
                CHECK(fast[channel].min == plain[channel].min);
                CHECK(fast[channel].max == plain[channel].max);
                CHECK(fast[channel].squares == plain[channel].squares);
            }
        }
    }
}

TEST_CASE("The sum of squares is exact at full scale and near silence") {
    for (const int full : {INT16_MIN, INT16_MAX, 1, 0}) {
        const auto level = static_cast<std::int16_t>(full);
        for (const std::size_t channels : {1U, 2U, 3U}) {
            const std::vector<std::int16_t> samples(256 * channels, level);
            std::vector<Extent> extents(channels);
            add_extents(samples, extents);
            const std::int64_t square = std::int64_t{level} * level;
            for (const Extent& extent : extents) {
                CHECK(extent.squares == static_cast<std::uint64_t>(square) * 256);
            }
        }
    }
}

TEST_CASE("Floating point samples round to 16 bits, clamp, and lose what is not finite") {
    constexpr float infinity = std::numeric_limits<float>::infinity();
    constexpr float nan = std::numeric_limits<float>::quiet_NaN();
    const std::vector<float> one_of_each{0.0F,   1.0F,           -1.0F,        2.0F,          -2.0F,
                                         nan,    -nan,           infinity,     -infinity,     1e30F,
                                         -1e30F, 0.5F / 32768,   1.5F / 32768, -0.5F / 32768, 100.4F / 32768,
                                         1e-40F, -100.6F / 32768};
    const std::vector<std::int16_t> wanted{0,     32767,  -32768, 32767, -32768, 0,   0, 0,   0,
                                           32767, -32768, 0,      2,     0,      100, 0, -101};
    // Every sample passes both the wide path and the tail, by starting at different places.
    for (std::size_t first = 0; first < one_of_each.size(); ++first) {
        const std::span<const float> from = std::span(one_of_each).subspan(first);
        std::vector<std::int16_t> out(from.size());
        to_sixteen_bit(from, out);
        for (std::size_t i = 0; i < out.size(); ++i) {
            INFO("sample " << first + i << " from " << first);
            CHECK(out[i] == wanted[first + i]);
        }
    }
}

TEST_CASE("Every bit pattern class of float comes out finite") {
    std::mt19937 random(7);
    std::vector<float> samples(4096);
    for (float& sample : samples) {
        const auto bits = static_cast<std::uint32_t>(random());
        std::memcpy(&sample, &bits, sizeof sample);
    }
    drop_nonfinite(samples);
    for (const float sample : samples) {
        REQUIRE(std::isfinite(sample));
    }
}
