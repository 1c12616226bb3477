// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/receiver_line.hpp"

#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>

using namespace gasp;
using namespace gasp::for_tests;

namespace {

/// 24 L between 600 and 800 kPa, 60 L/min.
PlantModel plant() {
    return air_model(rig_of_one()).plant;
}

/// 60 L/min taken in at 101.325 kPa lift 24 L by this many kPa a second.
constexpr double rise = 101.325 / 24.0;

/// Litres of free air drawn within half a second.
void add_draw(std::vector<DrawStep>& steps, double at_s, double litres) {
    const double kg_per_s = litres * 1e-3 * reference_density / 0.5;
    steps.push_back({at_s, kg_per_s});
    steps.push_back({at_s + 0.5, -kg_per_s});
}

}  // namespace

TEST_CASE("the receiver begins at cut-in with the compressor on, which stops at cut-out") {
    const ReceiverLine line = receiver_line(plant(), plant().cut_in, {}, 60.0);
    REQUIRE(line.kpa.points.size() == 3);
    CHECK(line.kpa.points[0] == CurvePoint{0.0, 600.0});
    CHECK(line.kpa.points[1].time_s == Approx(200.0 / rise).epsilon(1e-4));
    CHECK(line.kpa.points[1].value == Approx(800.0));
    CHECK(line.kpa.points[2].time_s == 60.0);
    CHECK(line.kpa.points[2].value == Approx(800.0));
    CHECK(line.compressor_on_s == Approx(200.0 / rise).epsilon(1e-4));
    CHECK(line.compressor_starts == 1);
    CHECK(line.lowest_kpa == Approx(600.0));
    CHECK(line.lowest_at_s == 0.0);
}

TEST_CASE("the lowest point stands on the curve, and the compressor rests between cut-out and cut-in") {
    std::vector<DrawStep> steps;
    for (int i = 0; i < 4; ++i) {
        add_draw(steps, 60.0 + i, 15.0);  // 62 kPa each
    }
    const ReceiverLine line = receiver_line(plant(), plant().cut_in, steps, 200.0);
    CHECK(line.lowest_kpa < 600.0);
    CHECK(line.compressor_starts == 2);
    CHECK(std::ranges::any_of(line.kpa.points, [&](const CurvePoint& point) {
        return point.time_s == line.lowest_at_s && point.value == Approx(line.lowest_kpa);
    }));
    CHECK(line.kpa.points.back().value == Approx(800.0));
}

TEST_CASE("a curve that bends is within 0.05 % of the closed form") {
    // A choked leak: p falls as exp(-t R T C rho0 / V).
    PlantModel leaking = plant();
    leaking.cut_in = leaking.cut_out = leaking.delivery = 0.0;
    leaking.leak = {2e-9, 0.5};
    const double start = 900e3;
    const double rate =
        gas_constant * leaking.ambient_temperature * leaking.leak.c * reference_density / leaking.receiver;
    const ReceiverLine line = receiver_line(leaking, start, {}, 40.0);
    for (double t = 0.0; t < 40.0; t += 0.7) {
        const double exact = start * std::exp(-rate * t);
        REQUIRE(exact > leaking.ambient_pressure);
        CHECK(line.kpa.at(t) * 1e3 + leaking.ambient_pressure == Approx(exact).epsilon(5e-4));
    }
}

TEST_CASE("pressure never falls below that of the air around") {
    PlantModel small = plant();
    small.receiver = 1e-4;
    std::vector<DrawStep> steps;
    add_draw(steps, 1.0, 10.0);
    const ReceiverLine line = receiver_line(small, small.cut_in, steps, 4.0);
    CHECK(line.lowest_kpa == Approx(0.0).margin(1e-9));
    CHECK(line.kpa.points.back().value > 0.0);
}

TEST_CASE("on average the compressor runs for the share of air drawn") {
    // Demand over free-air delivery, the duty of any compressor under a pressure switch: common practice, no
    // source.
    std::vector<DrawStep> steps;
    for (int i = 0; i < 10'000; ++i) {
        add_draw(steps, i * 4.0, 1.6);
    }
    const ReceiverLine line = receiver_line(plant(), plant().cut_in, steps, 40'000.0);
    CHECK(line.compressor_on_s / 40'000.0 == Approx(1.6 / 4.0 / 1.01325).epsilon(0.01));
}

TEST_CASE("another draw never raises the lowest pressure while the compressor runs on") {
    // Not so across cut-out: a small draw may start the compressor in time for a large one.
    REQUIRE(rc::check([] {
        PlantModel running = plant();
        running.cut_out = 4e6;
        auto starts = *rc::gen::unique<std::vector<int>>(rc::gen::inRange(0, 2990));
        RC_PRE(!starts.empty());
        const auto lowest = [&](std::size_t draws) {
            std::vector<DrawStep> steps;
            for (std::size_t i = 0; i < draws; ++i) {
                add_draw(steps, starts[i] * 0.01, 1.6);
            }
            return receiver_line(running, running.cut_in, steps, 30.0).lowest_kpa;
        };
        RC_ASSERT(lowest(starts.size()) <= lowest(starts.size() - 1) + 1e-6);
    }));
}
