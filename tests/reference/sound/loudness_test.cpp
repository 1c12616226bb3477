// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Test signals of EBU Tech 3341 (version 4, November 2023), table 1, made here from their description.
#include "core/sound/report.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numbers>
#include <span>
#include <vector>

using namespace gasp;

namespace {

constexpr int rate = 48000;

struct Stretch {
    double seconds;
    std::vector<double> level_dbfs;  ///< the peak of the 1 kHz sine in each channel
};

constexpr double silent = -std::numeric_limits<double>::infinity();

Stretch both(double seconds, double level_dbfs) {
    return {seconds, {level_dbfs, level_dbfs}};
}

std::vector<float> samples_of(const std::vector<Stretch>& stretches) {
    const std::size_t channels = stretches.front().level_dbfs.size();
    std::vector<float> samples;
    for (const Stretch& stretch : stretches) {
        for (int i = 0; i < static_cast<int>(std::lround(stretch.seconds * rate)); ++i) {
            const double time = static_cast<double>(samples.size() / channels) / rate;
            const double sine = std::sin(2.0 * std::numbers::pi * 1000.0 * time);
            for (const double level : stretch.level_dbfs) {
                samples.push_back(static_cast<float>(std::pow(10.0, level / 20.0) * sine));
            }
        }
    }
    return samples;
}

SoundReport report_on(const std::vector<Stretch>& stretches) {
    const test::Folder folder;
    const std::size_t channels = stretches.front().level_dbfs.size();
    const std::vector<float> samples = samples_of(stretches);
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, rate, static_cast<int>(channels),
                      samples);
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    return *report;
}

/// What a meter that is read while it runs shows at most of the stretches, after each of them.
std::vector<LoudestMoment> loudest_after_each(const std::vector<std::vector<Stretch>>& parts) {
    LoudnessMeter meter(rate, std::array{SpeakerPosition::left, SpeakerPosition::right});
    std::vector<LoudestMoment> loudest;
    for (const std::vector<Stretch>& part : parts) {
        meter.add(samples_of(part));
        loudest.push_back(meter.loudest().value());
    }
    return loudest;
}

/// The loudness over the last so many seconds of a piece, as the highest of it alone: what comes before it is
/// silence to the meter, so nothing else in it is louder.
LoudestMoment over_last(double seconds, double until, const std::vector<float>& samples) {
    LoudnessMeter meter(rate, std::array{SpeakerPosition::left, SpeakerPosition::right});
    const auto frame = [](double time) { return static_cast<std::size_t>(std::lround(time * rate)); };
    meter.add(std::span(samples).subspan(2 * frame(until - seconds), 2 * frame(seconds)));
    return meter.loudest().value();
}

/// A sine of fs/6 at 0.50, in whose middle one period of fs/4 at 1.00 stands, its phase running on: made at
/// four times the rate, low-passed, and every fourth sample taken from `offset` on.
double true_peak_between_samples(std::size_t offset) {
    const std::size_t frames = 4 * rate;
    constexpr int low_pass_reach = 4 * 64;
    std::vector<double> fine;
    double angle = 0.0;
    for (std::size_t i = 0; i < frames; ++i) {
        const bool loud = i >= frames / 2 && i < frames / 2 + 16;
        const double edge = std::min(static_cast<double>(i), static_cast<double>(frames - i));
        fine.push_back((loud ? 1.0 : 0.5) * std::min(1.0, edge / (0.010 * 4 * rate)) * std::sin(angle));
        angle += 2.0 * std::numbers::pi / (loud ? 16.0 : 24.0);
    }
    std::vector<float> samples;
    for (std::size_t i = offset; i < frames; i += 4) {
        double sum = 0.0;
        for (int k = -low_pass_reach; k <= low_pass_reach; ++k) {
            const auto at = static_cast<std::ptrdiff_t>(i) + k;
            if (at >= 0 && at < std::ssize(fine)) {
                const double x = std::numbers::pi * k / 4.0;
                const double window = 0.5 + 0.5 * std::cos(std::numbers::pi * k / low_pass_reach);
                sum += fine[static_cast<std::size_t>(at)] * window * (k == 0 ? 1.0 : std::sin(x) / x) / 4.0;
            }
        }
        samples.insert(samples.end(), 2, static_cast<float>(sum));
    }
    const test::Folder folder;
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, rate, 2, samples);
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    return report->true_peak_dbtp.value();
}

double true_peak_of(double divisor, double amplitude, double phase_degrees) {
    const test::Folder folder;
    const std::size_t frames = rate;
    const double fade = 0.010 * rate;
    std::vector<float> samples;
    for (std::size_t i = 0; i < frames; ++i) {
        const double edge = std::min(static_cast<double>(i), static_cast<double>(frames - i));
        const double angle =
            2.0 * std::numbers::pi * (static_cast<double>(i) / divisor + phase_degrees / 360.0);
        const auto sample = static_cast<float>(amplitude * std::min(1.0, edge / fade) * std::sin(angle));
        samples.insert(samples.end(), {sample, sample});
    }
    test::write_sound(folder / "a.wav", SF_FORMAT_WAV | SF_FORMAT_FLOAT, rate, 2, samples);
    const Result<SoundReport> report = sound_report(folder / "a.wav", test::never, {});
    REQUIRE(report);
    return report->true_peak_dbtp.value();
}

}  // namespace

TEST_CASE("Integrated loudness is that of EBU Tech 3341, cases 1 to 6, within 0.1 LU") {
    const auto loudness = [](const std::vector<Stretch>& stretches) {
        return report_on(stretches).loudness_lufs.value();
    };
    CHECK(loudness({both(20, -23)}) == Approx(-23.0).margin(0.1));
    CHECK(loudness({both(20, -33)}) == Approx(-33.0).margin(0.1));
    CHECK(loudness({both(10, -36), both(60, -23), both(10, -36)}) == Approx(-23.0).margin(0.1));
    CHECK(loudness({both(10, -72), both(10, -36), both(60, -23), both(10, -36), both(10, -72)}) ==
          Approx(-23.0).margin(0.1));
    CHECK(loudness({both(20, -26), both(20.1, -20), both(20, -26)}) == Approx(-23.0).margin(0.1));
    // Case 6, 5.0 in the order left, right, centre, surrounds.
    CHECK(loudness({{20, {-28, -28, -24, -30, -30}}}) == Approx(-23.0).margin(0.1));
}

TEST_CASE("True peak is that of EBU Tech 3341, cases 15 to 19, within +0.2 and -0.4 dB") {
    struct Case {
        double divisor;
        double amplitude;
        double phase_degrees;
        double dbtp;
    };
    for (const Case& at : {Case{4, 0.50, 0.0, -6.0}, Case{4, 0.50, 45.0, -6.0}, Case{6, 0.50, 60.0, -6.0},
                           Case{8, 0.50, 67.5, -6.0}, Case{4, 1.41, 45.0, 3.0}}) {
        const double found = true_peak_of(at.divisor, at.amplitude, at.phase_degrees);
        INFO("fs/" << at.divisor << ", " << at.phase_degrees << " degrees");
        CHECK(found <= at.dbtp + 0.2);
        CHECK(found >= at.dbtp - 0.4);
    }
}

// Cases 7 and 8 are recorded programmes that are not published as a description.
TEST_CASE("Short-term loudness is that of EBU Tech 3341, case 9, within 0.1 LU at any time after 3 s") {
    std::vector<Stretch> stretches;
    for (int i = 0; i < 5; ++i) {
        stretches.insert(stretches.end(), {both(1.34, -20), both(1.66, -30)});
    }
    const std::vector<float> samples = samples_of(stretches);
    for (double until = 3.0; until < 15.001; until += 0.1) {
        CAPTURE(until);
        CHECK(over_last(3.0, until, samples).short_term_lufs == Approx(-23.0).margin(0.1));
    }
    CHECK(report_on(stretches).loudest->short_term_lufs == Approx(-23.0).margin(0.1));
}

TEST_CASE("The highest short-term loudness is that of EBU Tech 3341, case 10, within 0.1 LU") {
    const int i = GENERATE(range(0, 20));
    CAPTURE(i);
    const SoundReport report = report_on({both(i * 0.15, silent), both(3, -23), both(1, silent)});
    CHECK(report.loudest->short_term_lufs == Approx(-23.0).margin(0.1));
}

TEST_CASE("The highest short-term loudness is that of EBU Tech 3341, case 11, within 0.1 LU") {
    std::vector<std::vector<Stretch>> parts;
    for (int i = 0; i < 20; ++i) {
        parts.push_back({both(i * 0.15, silent), both(3, -38.0 + i), both(3 - i * 0.15, silent)});
    }
    const auto loudest = loudest_after_each(parts);
    for (std::size_t i = 0; i < loudest.size(); ++i) {
        CHECK(loudest[i].short_term_lufs == Approx(-38.0 + static_cast<double>(i)).margin(0.1));
    }
}

TEST_CASE("Momentary loudness is that of EBU Tech 3341, case 12, within 0.1 LU at any time after 1 s") {
    std::vector<Stretch> stretches;
    for (int i = 0; i < 25; ++i) {
        stretches.insert(stretches.end(), {both(0.18, -20), both(0.22, -30)});
    }
    const std::vector<float> samples = samples_of(stretches);
    for (double until = 1.0; until < 10.001; until += 0.05) {
        CAPTURE(until);
        CHECK(over_last(0.4, until, samples).momentary_lufs == Approx(-23.0).margin(0.1));
    }
    CHECK(report_on(stretches).loudest->momentary_lufs == Approx(-23.0).margin(0.1));
}

TEST_CASE("The highest momentary loudness is that of EBU Tech 3341, case 13, within 0.1 LU, where it is") {
    const int i = GENERATE(range(0, 20));
    CAPTURE(i);
    const SoundReport report = report_on({both(i * 0.02, silent), both(0.4, -23), both(1, silent)});
    CHECK(report.loudest->momentary_lufs == Approx(-23.0).margin(0.1));
    CHECK(to_ms(report.loudest->at) == Approx(i * 20.0 + 200.0).margin(10.0));
}

TEST_CASE("The highest momentary loudness is that of EBU Tech 3341, case 14, within 0.1 LU") {
    std::vector<std::vector<Stretch>> parts;
    for (int i = 0; i < 20; ++i) {
        parts.push_back({both(i * 0.02, silent), both(0.4, -38.0 + i), both(0.4 - i * 0.02, silent)});
    }
    const auto loudest = loudest_after_each(parts);
    for (std::size_t i = 0; i < loudest.size(); ++i) {
        CHECK(loudest[i].momentary_lufs == Approx(-38.0 + static_cast<double>(i)).margin(0.1));
    }
}

TEST_CASE("True peak is that of EBU Tech 3341, cases 20 to 23, within +0.2 and -0.4 dB") {
    const std::size_t offset = GENERATE(0U, 1U, 2U, 3U);
    CAPTURE(offset);
    const double found = true_peak_between_samples(offset);
    CHECK(found <= 0.2);
    CHECK(found >= -0.4);
}
