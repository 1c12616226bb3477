// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/slow_sound.hpp"

#include "core/sound/sound_file.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <cmath>
#include <numbers>
#include <random>

using namespace gasp;

namespace {

constexpr int rate = 48'000;

std::vector<float> slowed(std::span<const float> stereo, int times) {
    SlowSound slow(rate, times);
    std::vector<float> out;
    const auto take = [&] {
        const auto frames = static_cast<std::size_t>(slow.ready());
        out.resize(out.size() + 2 * frames);
        slow.take(std::span(out).last(2 * frames));
    };
    while (!stereo.empty()) {
        const std::size_t part = std::min<std::size_t>(2 * 777, stereo.size());
        slow.put(stereo.first(part));
        stereo = stereo.subspan(part);
        take();
    }
    slow.end();
    take();
    return out;
}

/// In the middle half of the left channel: rising passes through 0 a second.
double pitch_hz(std::span<const float> stereo) {
    const std::size_t frames = stereo.size() / 2;
    std::vector<double> passes;
    for (std::size_t i = frames / 4; i < frames * 3 / 4; ++i) {
        const double before = stereo[2 * i];
        const double after = stereo[2 * i + 2];
        if (before < 0.0 && after >= 0.0) {
            passes.push_back(static_cast<double>(i) + before / (before - after));
        }
    }
    return rate * static_cast<double>(passes.size() - 1) / (passes.back() - passes.front());
}

double rms(std::span<const float> samples) {
    double sum = 0.0;
    for (const float sample : samples) {
        sum += static_cast<double>(sample) * sample;
    }
    return std::sqrt(sum / static_cast<double>(samples.size()));
}

}  // namespace

TEST_CASE("a slowed tone lasts longer, at its pitch and level", "[slow_sound]") {
    const int times = GENERATE(2, 4);
    const double tone_hz = GENERATE(110.0, 440.0, 3000.0);
    CAPTURE(times, tone_hz);
    std::vector<float> tone(2 * rate);
    for (std::size_t i = 0; i < rate; ++i) {
        const double phase = 2.0 * std::numbers::pi * tone_hz * static_cast<double>(i) / rate;
        tone[2 * i] = tone[2 * i + 1] = 0.5F * static_cast<float>(std::sin(phase));
    }
    const std::vector<float> out = slowed(tone, times);
    REQUIRE(out.size() == tone.size() * static_cast<std::size_t>(times));
    // A cent is a hundredth of a semitone; some five are heard as another pitch (common practice, no source).
    CHECK(std::abs(1200.0 * std::log2(pitch_hz(out) / tone_hz)) < 5.0);
    const std::span middle = std::span(out).subspan(out.size() / 4, out.size() / 2);
    CHECK(std::abs(20.0 * std::log10(rms(middle) / (0.5 / std::numbers::sqrt2))) < 0.5);
    // To its end, too: what was its last 20 ms, but for what the end of a tone does to a window.
    const std::span last = std::span(out).last(2 * static_cast<std::size_t>(rate / 50 * times));
    CHECK(std::abs(20.0 * std::log10(rms(last) / (0.5 / std::numbers::sqrt2))) < 3.0);
}

TEST_CASE("what is heard slowly is where it is on the ruler", "[slow_sound]") {
    const int times = GENERATE(2, 4);
    CAPTURE(times);
    // Bursts of noise of 50 ms, four a second.
    std::minstd_rand random(5);  // NOLINT(cert-msc51-cpp): the same each time
    std::uniform_real_distribution<float> noise(-0.5F, 0.5F);
    constexpr std::size_t frames = 3 * rate;
    std::vector<float> bursts(2 * frames);
    for (std::size_t i = 0; i < frames; ++i) {
        const bool on = i % (rate / 4) >= rate / 8 && i % (rate / 4) < rate / 8 + rate / 20;
        bursts[2 * i] = bursts[2 * i + 1] = on ? noise(random) : 0.0F;
    }
    const std::vector<float> out = slowed(bursts, times);
    float loudest = 0.0F;
    for (const float sample : out) {
        loudest = std::max(loudest, std::abs(sample));
    }
    for (int burst = 1; burst < 11; ++burst) {
        const auto expected = static_cast<std::int64_t>(times) * (burst * rate / 4 + rate / 8);
        std::int64_t begins = expected - times * rate / 16;
        while (std::abs(out[2 * static_cast<std::size_t>(begins)]) < 0.1F * loudest) {
            ++begins;
        }
        CAPTURE(burst, begins - expected);
        CHECK(std::abs(begins - expected) <= times * rate / 100);  // 10 ms of the ruler
    }
}

TEST_CASE("a slowed voice is as loud as it was and never louder by much", "[slow_sound]") {
    const auto prompts = test::speaker_test_prompts();
    REQUIRE_FALSE(prompts.empty());
    auto file = SoundFile::open(prompts.front());
    REQUIRE(file);
    std::vector<float> mono(static_cast<std::size_t>(file->info().frames));
    (void)file->read(mono);
    std::vector<float> voice;
    for (const float sample : mono) {
        voice.insert(voice.end(), 2, sample);
    }
    const std::vector<float> out = slowed(voice, 2);
    CHECK(out.size() == 2 * voice.size());
    CHECK(std::abs(20.0 * std::log10(rms(out) / rms(voice))) < 1.0);
    CHECK(std::ranges::max(out) < 1.5F * std::ranges::max(voice));
}

TEST_CASE("nothing slowed is nothing, and little comes out whole", "[slow_sound]") {
    CHECK(slowed({}, 4).empty());
    const std::vector<float> little(2 * 100, 0.25F);
    CHECK(slowed(little, 4).size() == 4 * little.size());
}
