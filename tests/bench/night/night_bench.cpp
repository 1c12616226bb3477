// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// A night of 8 h with 600 scares of one figure (out for 0.8 s, then back) against 600 strokes out and back by
// SUNDIALS CVODE (BDF), at the loosest tolerance, a power of two, that keeps the moments of its stroke within
// 1e-6: once with every stroke simulated, once with what the night keeps of strokes, whose making is counted;
// on a plant that holds the regulator's setting and on one that does not. Processor time of one thread; 20
// CVODE strokes stand for 600. And 1000 nights on one thread and on two, in wall time.
#include "core/air/night/night.hpp"
#include "tests/bench/air/cvode_stroke.hpp"
#include "tests/support/air_rig.hpp"

#include <time.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string>
#include <vector>

using namespace gasp;

namespace {

constexpr int rounds = 7;
constexpr int scares = 600;
constexpr int cvode_strokes = 20;
constexpr Micros stroke_length{2'000'000};
const std::vector<StrokeCommand> commands{{Micros{0}, {1}, Coil::out}, {Micros{800'000}, {1}, Coil::back}};

std::vector<NightSequence> scare() {
    NightSequence sequence;
    sequence.id = {2};
    sequence.length = Micros{12'000'000};
    sequence.commands = commands;
    sequence.lockout_s = 15.0;
    return {sequence};
}

/// 600 groups in 8 h, 36 to 60 s apart.
NightTerms terms(int runs) {
    NightTerms terms;
    SplitMix64 random(5);
    double at = 0.0;
    for (int i = 0; i < scares; ++i) {
        at += 36.0 + 23.5 * random.next_share();
        terms.arrivals_s.push_back(at);
    }
    terms.runs = runs;
    return terms;
}

double thread_s() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) / 1e9;
}

double wall_s() {
    return std::chrono::duration<double>(std::chrono::steady_clock::now().time_since_epoch()).count();
}

template <class Clock, class Work>
double timed(Clock clock, Work work) {
    const double begin = clock();
    work();
    return clock() - begin;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    return values[values.size() / 2];
}

double cvode_tolerance(CvodeStroke& cvode) {
    const std::vector<double> reference = cvode.run(1e-12);
    for (double tolerance = 0x1p-10; tolerance > 0x1p-36; tolerance /= 2) {
        const std::vector<double> figures = cvode.run(tolerance);
        double error = figures.size() == reference.size() ? 0.0 : INFINITY;
        for (std::size_t i = 0; i < std::min(figures.size(), reference.size()); ++i) {
            error = std::max(error, std::abs(figures[i] / reference[i] - 1.0));
        }
        if (error <= 1e-6) {
            return tolerance;
        }
    }
    return 0x1p-36;
}

NightForecast play(const Show& show, const NightTerms& terms, const NightWork& options) {
    const std::atomic<bool> cancel{false};
    const Result<NightForecast> forecast = forecast_night(show, scare(), terms, options, cancel, {});
    if (!forecast) {
        std::printf("%s\n", forecast.error().text().c_str());
        std::exit(1);
    }
    return *forecast;
}

bool report(const char* name, double value, double bar, bool at_least = false) {
    const bool ok = at_least ? value >= bar : value <= bar;
    std::printf("bench %s = %.4f (bar %.4f) %s\n", name, value, bar, ok ? "ok" : "short");
    return ok;
}

bool one_night(const char* plant, const Show& show) {
    const AirModel model = air_model(show);
    CvodeStroke cvode(model, commands, to_s(stroke_length));
    const double tolerance = cvode_tolerance(cvode);
    const NightTerms night = terms(1);
    std::vector<double> full;
    std::vector<double> kept;
    double stroke_s = 0.0;
    double night_s = 0.0;
    for (int round = -1; round < rounds; ++round) {
        const double theirs = timed(thread_s, [&] {
            for (int i = 0; i < cvode_strokes; ++i) {
                static_cast<void>(cvode.run(tolerance));
            }
        });
        const double each = timed(thread_s, [&] { play(show, night, {false, 1}); });
        const double cached = timed(thread_s, [&] { play(show, night, {true, 1}); });
        if (round >= 0) {
            stroke_s = theirs / cvode_strokes;
            night_s = cached;
            full.push_back(each / (stroke_s * scares));
            kept.push_back(cached / (stroke_s * scares));
        }
    }
    const NightForecast one = play(show, night, {true, 1});
    const NightForecast other = play(show, night, {false, 1});
    std::printf(
        "%s: %d scares, %d weak, lowest %.1f kPa (all simulated: %.1f), %zu strokes simulated (%zu); "
        "CVODE stroke %.0f us at %.1e, night kept %.2f ms\n",
        plant, one.nights[0].delivered, one.nights[0].weak, *one.nights[0].lowest_kpa_gauge,
        *other.nights[0].lowest_kpa_gauge, one.simulated_strokes, other.simulated_strokes, stroke_s * 1e6,
        tolerance, night_s * 1e3);
    const std::string name = plant;
    const bool fast = report(("night_simulated_to_cvode_" + name).c_str(), median(full), 0.15);
    return report(("night_kept_to_cvode_" + name).c_str(), median(kept), 0.02) && fast;
}

bool on_two_threads() {
    const Show show = for_tests::bench_rig(5.0, 600.0, 30.0);
    NightTerms many = terms(1000);
    many.arrivals_s.clear();
    many.groups_by_hour = {75.0};
    std::vector<double> gains;
    for (int round = -1; round < rounds; ++round) {
        const double one = timed(wall_s, [&] { play(show, many, {true, 1}); });
        const double two = timed(wall_s, [&] { play(show, many, {true, 2}); });
        if (round >= 0) {
            gains.push_back(one / two);
        }
    }
    return report("nights_1000_one_thread_to_two", median(gains), 1.8, true);
}

}  // namespace

int main() {
    const bool strong = one_night("strong_plant", for_tests::bench_rig(5.0, 600.0, 30.0));
    const bool weak = one_night("weak_plant", for_tests::bench_rig(5.0, 600.0, 0.4));
    return on_two_threads() && strong && weak ? 0 : 1;
}
