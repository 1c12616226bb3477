// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Current over time of 100 000 switchings on 64 channels and two supplies against a sweep of the sorted steps
// of current that they make: half of the loads surge, and the sweep is given where their surges end, sorted
// among the rest. It adds up each supply's current, keeps the steps, the peak, the charge and the square;
// both find the same peak.
#include "core/power/current_curve.hpp"
#include "core/power/current_walk.hpp"

#include <time.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <random>
#include <vector>

using namespace gasp;

namespace {

constexpr std::size_t switch_count = 100'000;
constexpr std::uint32_t load_count = 64;
constexpr int rounds = 41;
constexpr Micros length{3'600'000'000};

std::vector<LoadDraw> some_loads() {
    std::vector<LoadDraw> loads;
    for (std::uint32_t i = 0; i < load_count; ++i) {
        const MicroAmps steady = 100'000 + 10'000 * i;
        const bool surging = i % 2 == 0;
        loads.push_back(
            {i % 2, steady, surging ? 9 * steady : 0, Micros{surging ? 20'000 + 500 * i : 0}, false});
    }
    return loads;
}

std::vector<LoadSwitch> some_switches() {
    std::vector<LoadSwitch> switches;
    std::mt19937_64 random(5);
    for (std::uint32_t load = 0; load < load_count; ++load) {
        Micros at{static_cast<Micros::rep>(random() % 1'000'000)};
        for (std::size_t i = 0; i < switch_count / load_count; ++i) {
            switches.push_back({at, load, i % 2 == 0});
            at += Micros{static_cast<Micros::rep>(50'000 + random() % 4'000'000)};
        }
    }
    std::ranges::stable_sort(switches, {}, &LoadSwitch::time);
    return switches;
}

struct Swept {
    std::vector<CurrentPoint> points;
    MicroAmps current = 0;
    MicroAmps peak = 0;
    Micros since{0};
    double charge_as = 0.0;
    double square_a2s = 0.0;
};

struct Step {
    Micros time{0};
    std::uint32_t supply = 0;
    MicroAmps more = 0;
};

std::vector<Step> steps_of(const std::vector<LoadDraw>& loads, const std::vector<LoadSwitch>& switches) {
    std::vector<Step> steps;
    CurrentWalk(loads).run(switches, length, [&](const CurrentStep& step) {
        steps.push_back({step.time, loads[step.load].supply, step.total});
    });
    return steps;
}

std::array<Swept, 2> sweep(const std::vector<Step>& steps) {
    std::array<Swept, 2> swept;
    for (Swept& one : swept) {
        one.points.reserve(steps.size());
    }
    for (const Step& step : steps) {
        Swept& one = swept[step.supply];
        const double charge = amps(one.current) * to_s(step.time - one.since);
        one.charge_as += charge;
        one.square_a2s += charge * amps(one.current);
        one.since = step.time;
        one.current += step.more;
        one.peak = std::max(one.peak, one.current);
        one.points.push_back({step.time, one.current});
    }
    return swept;
}

/// Processor time of this thread: a busy machine does not count.
double now_us() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) * 1e6 + static_cast<double>(time.tv_nsec) / 1e3;
}

double median(std::vector<double> values) {
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                     values.end());
    return values[values.size() / 2];
}

}  // namespace

int main() {
    const std::vector<LoadDraw> loads = some_loads();
    const std::vector<LoadSwitch> switches = some_switches();
    const std::vector<Step> steps = steps_of(loads, switches);
    const std::vector<MicroAmps> standing(2, 0);
    std::vector<double> plain;
    std::vector<double> ours;
    MicroAmps curve = 0;
    MicroAmps swept = 0;
    for (int round = 0; round <= rounds; ++round) {
        const double start = now_us();
        swept = sweep(steps)[0].peak;
        const double middle = now_us();
        curve = current_curves(loads, standing, switches, length)[0].peak;
        const double end = now_us();
        if (round > 0) {  // the first is to warm up
            plain.push_back(middle - start);
            ours.push_back(end - middle);
        }
    }
    if (curve != swept) {
        std::printf("the two ways differ: %lld by the curve, %lld by the sweep\n",
                    static_cast<long long>(curve), static_cast<long long>(swept));
        return 1;
    }
    const double ratio = median(ours) / median(plain);
    const bool ok = ratio <= 2.0;
    std::printf("sweep %.0f us, curve %.0f us\nbench power_curve_to_sweep = %.3f (bar 2.000) %s\n",
                median(plain), median(ours), ratio, ok ? "ok" : "short");
    return ok ? 0 : 1;
}
