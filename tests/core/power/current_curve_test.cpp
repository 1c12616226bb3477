// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/current_curve.hpp"

#include "tests/support/catch.hpp"

#include <algorithm>
#include <chrono>
#include <random>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

LoadDraw draw(double steady, double surge = 0.0, Micros time = 0us) {
    return {0, micro_amps(steady), micro_amps(surge), time, false};
}

std::vector<CurrentCurve> curves(const std::vector<LoadDraw>& loads, const std::vector<LoadSwitch>& switches,
                                 Micros length, std::vector<MicroAmps> standing = {0}) {
    return current_curves(loads, standing, switches, length);
}

/// What flows at a moment, the slow way: every load asked for its last switching.
MicroAmps current_at(const std::vector<LoadDraw>& loads, const std::vector<LoadSwitch>& switches, Micros time,
                     std::uint32_t supply) {
    MicroAmps sum = 0;
    for (std::uint32_t load = 0; load < loads.size(); ++load) {
        if (loads[load].supply != supply) {
            continue;
        }
        bool on = loads[load].on_at_rest;
        Micros since = -1h;
        for (const LoadSwitch& event : switches) {
            if (event.load == load && event.time <= time && event.on != on) {
                on = event.on;
                since = event.time;
            }
        }
        const bool surging = on && time < since + loads[load].surge_time;
        sum += on ? loads[load].steady + (surging ? loads[load].surge : 0) : 0;
    }
    return sum;
}

}  // namespace

TEST_CASE("a lamp surges as it is switched on, and what stands always is there before and after") {
    const auto curve = curves({draw(2.0, 18.0, 40ms)}, {{1s, 0, true}, {3s, 0, false}}, 4s, {500'000})[0];
    const std::vector<CurrentPoint> points{
        {0us, 500'000}, {1s, 20'500'000}, {1040ms, 2'500'000}, {3s, 500'000}};
    CHECK(curve.points == points);
    CHECK(amps(curve.peak) == 20.5);
    CHECK(curve.peak_at == 1s);
    CHECK(amps(curve.steady_peak) == 2.5);
    CHECK(curve.average_a(4s) == Approx(0.5 + (2.0 * 2.0 + 18.0 * 0.04) / 4.0));
    CHECK(curve.rms_a(4s) == Approx(std::sqrt((0.25 * 2.0 + 20.5 * 20.5 * 0.04 + 6.25 * 1.96) / 4.0)));
}

TEST_CASE("a surge ends with its load, and begins again with the next one") {
    const auto curve = curves({draw(1.0, 5.0, 100ms)},
                              {{1s, 0, true}, {1050ms, 0, false}, {1080ms, 0, true}, {2s, 0, false}}, 3s)[0];
    const std::vector<CurrentPoint> points{
        {0us, 0}, {1s, 6'000'000}, {1050ms, 0}, {1080ms, 6'000'000}, {1180ms, 1'000'000}, {2s, 0}};
    CHECK(curve.points == points);
}

TEST_CASE("what happens at one moment is one change, and an instant between is no peak") {
    const auto curve =
        curves({draw(3.0), draw(3.0)}, {{1s, 0, true}, {2s, 1, true}, {2s, 0, false}, {3s, 1, false}}, 4s)[0];
    CHECK(amps(curve.peak) == 3.0);
    CHECK(curve.points.size() == 3);  // 0, 1 s, 3 s
}

TEST_CASE("what has power at rest is on from the beginning, without a surge") {
    LoadDraw load = draw(1.5, 9.0, 50ms);
    load.on_at_rest = true;
    const auto curve = curves({load}, {{1s, 0, false}, {2s, 0, true}}, 3s)[0];
    CHECK(curve.points.front() == CurrentPoint{0us, 1'500'000});
    CHECK(curve.peak_at == 2s);
    CHECK(amps(curve.peak) == 10.5);
}

TEST_CASE("a sequence without switchings, and without length") {
    CHECK(curves({}, {}, 5s, {250'000})[0].average_a(5s) == 0.25);
    CHECK(curves({}, {}, 0s, {250'000})[0].average_a(0s) == 0.0);
    CHECK(curves({draw(1.0)}, {{5s, 0, true}}, 5s)[0].peak == 0);
}

TEST_CASE("any switchings give what asking at every moment gives") {
    std::mt19937_64 random(20);
    for (int round = 0; round < 60; ++round) {
        std::vector<LoadDraw> loads;
        for (std::uint32_t i = 0; i < 6; ++i) {
            LoadDraw load = draw(static_cast<double>(random() % 50) / 10.0,
                                 static_cast<double>(random() % 3 * (random() % 90)) / 10.0,
                                 Micros{static_cast<Micros::rep>(random() % 60)});
            load.supply = i % 2;
            load.on_at_rest = random() % 4 == 0;
            loads.push_back(load);
        }
        std::vector<LoadSwitch> switches;
        for (int i = 0; i < 80; ++i) {
            switches.push_back({Micros{static_cast<Micros::rep>(random() % 1000)},
                                static_cast<std::uint32_t>(random() % 6), random() % 2 == 0});
        }
        std::ranges::stable_sort(switches, {}, &LoadSwitch::time);
        const auto made = curves(loads, switches, 1000us, {100, 200});
        for (std::uint32_t supply = 0; supply < 2; ++supply) {
            const auto& points = made[supply].points;
            MicroAmps peak = 0;
            double charge = 0.0;
            for (Micros time{0}; time < 1000us; ++time) {
                const auto after = std::ranges::upper_bound(points, time, {}, &CurrentPoint::time);
                const MicroAmps told = std::prev(after)->current;
                const MicroAmps asked = current_at(loads, switches, time, supply) + (supply == 0 ? 100 : 200);
                REQUIRE(told == asked);
                peak = std::max(peak, asked);
                charge += amps(asked) * 1e-6;
            }
            CHECK(made[supply].peak == peak);
            CHECK(made[supply].charge_as == Approx(charge));
        }
    }
}
