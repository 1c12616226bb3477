// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_run.hpp"

#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/patience.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

using namespace gasp;
using namespace gasp::for_tests;

namespace {

double pressure_of(const AirRun& run, std::size_t stroke) {
    return run.strokes.at(stroke).receiver_kpa;
}

/// Between lowest and highest in steps.
double between(double least, double most) {
    return least + (most - least) * *rc::gen::inRange(0, 1001) / 1000.0;
}

}  // namespace

TEST_CASE("a stroke out and back arrives both ways, with its moments in order") {
    const AirRun run = played(rig_of_one());
    REQUIRE(run.strokes.size() == 2);
    for (const Stroke& stroke : run.strokes) {
        CHECK(stroke.shifted);
        CHECK(stroke.end == StrokeEnd::arrives);
        CHECK_FALSE(stroke.bounces);
        for (std::size_t i = 0; i < 4; ++i) {
            REQUIRE(stroke.reached_s[i]);
            CHECK(*stroke.reached_s[i] > (i == 0 ? 0.02 : *stroke.reached_s[i - 1]));
        }
        CHECK(stroke.end_energy_j == Approx(0.5 * 5 * stroke.end_speed_m_s * stroke.end_speed_m_s));
        CHECK(stroke.furthest == 1.0);
    }
}

TEST_CASE("strikes are within 0.2 ms and pressures within 0.1 % of the same equations at 1e-10") {
    for (const Show& show : {rig_of_one(), lifting_rig()}) {
        AirOptions fine;
        fine.tolerance = 1e-10;
        const AirRun usual = played(show);
        const AirRun exact = played(show, fine);
        for (std::size_t i = 0; i < 2; ++i) {
            CHECK(std::abs(*usual.strokes[i].strike_s() - *exact.strokes[i].strike_s()) < 0.2e-3);
            CHECK(usual.strokes[i].free_air_l == Approx(exact.strokes[i].free_air_l).epsilon(1e-4));
        }
        for (double time = 0.0; time < 3.0; time += 0.01) {
            const double ambient = 101.325;
            CHECK(usual.actuators[0].out_kpa.at(time) + ambient ==
                  Approx(exact.actuators[0].out_kpa.at(time) + ambient).epsilon(2e-3));
            CHECK(usual.actuators[0].motion.share_at(time) ==
                  Approx(exact.actuators[0].motion.share_at(time)).margin(2e-4));
        }
    }
}

TEST_CASE("the error falls with the tolerance") {
    const auto strike = [](double tolerance) {
        AirOptions options;
        options.tolerance = tolerance;
        options.curves = false;
        return *played(rig_of_one(), options).strokes[0].strike_s();
    };
    const double exact = strike(1e-12);
    const double coarse = std::abs(strike(1e-4) - exact);
    CHECK(std::abs(strike(1e-6) - exact) < coarse / 10);
    CHECK(std::abs(strike(1e-8) - exact) < coarse / 100);
}

TEST_CASE("air is conserved: what left the receiver is what it lost and got") {
    Show show = rig_of_one();
    show.rig.air_plant.cut_in_kpa_gauge = 100;  // the compressor stays off
    AirOptions options;
    options.receiver_kpa_gauge = 700.0;
    for (const double reservoir : {0.0, 2.0}) {
        if (reservoir > 0.0) {
            show.rig.actuators[0].feed.reservoir_l = reservoir;
        }
        const AirRun run = played(show, options);
        const double lost_kpa = 700.0 - run.receiver_kpa.points.back().value;
        // Free air at 100 kPa and 20 C, as the air around is here.
        CHECK(run.left_receiver_l == Approx(lost_kpa / 100.0 * 24.0).epsilon(1e-6));
        CHECK(run.compressor_on_s == 0.0);
        if (reservoir == 0.0) {
            CHECK(run.free_air_l == Approx(run.left_receiver_l).epsilon(1e-9));
        }
    }
}

TEST_CASE("without air it does not move, without limit to the receiver the pressure stands") {
    Show show = lifting_rig();
    show.rig.air_plant.regulator_kpa_gauge = 60;
    const AirRun weak = played(show);
    CHECK(weak.strokes.at(0).end == StrokeEnd::stalls);
    CHECK_FALSE(weak.strokes[0].strike_s());
    CHECK(weak.strokes[0].furthest == 0.0);

    Show endless = rig_of_one();
    Show huge = rig_of_one();
    endless.rig.air_plant.receiver_l.reset();
    huge.rig.air_plant.receiver_l = 10000;
    const AirRun without = played(endless);
    CHECK(*without.strokes[0].strike_s() == Approx(*played(huge).strokes[0].strike_s()).epsilon(1e-6));
    CHECK(without.lowest_receiver_kpa == Approx(500.0));
}

TEST_CASE("without a load the rod's own mass is what moves") {
    Show show = rig_of_one();
    show.rig.actuators[0].load.mass_kg = 0;
    const AirModel model = air_model(show);
    REQUIRE(model.actuators.size() == 1);
    CHECK(model.actuators[0].rod_mass > 0.1);
    CHECK(*played(show).strokes[0].strike_s() < *played(rig_of_one()).strokes[0].strike_s());
}

TEST_CASE("the pressure switch starts and stops the compressor where it says") {
    Show show = rig_of_one();
    show.rig.air_plant.cut_in_kpa_gauge = 590;
    show.rig.air_plant.cut_out_kpa_gauge = 610;
    AirOptions options;
    options.receiver_kpa_gauge = 592.0;
    const AirRun run = played(show, options, out_and_back(), Micros{40'000'000});
    CHECK(run.compressor_starts == 1);
    CHECK(run.receiver_kpa.points.back().value == Approx(610.0).epsilon(1e-4));
    CHECK(run.lowest_receiver_kpa < 590.0);
}

TEST_CASE("a leak empties the receiver, in closed form or integrated") {
    Show show = rig_of_one();
    show.rig.air_plant.leak_c_l_s_bar = 0.5;
    show.rig.air_plant.cut_in_kpa_gauge = 10;
    AirOptions options;
    options.receiver_kpa_gauge = 600.0;
    // Choked and isothermal: p = p1 exp(-t C p0 / V); 24 L and 0.5 dm3/(s bar) are 48 s.
    const AirRun run = played(show, options, {}, Micros{20'000'000});
    CHECK(run.receiver_kpa.points.back().value + 101.325 ==
          Approx(701.325 * std::exp(-20.0 / 48.0)).epsilon(1e-6));
    const AirRun down = played(show, options, {}, Micros{600'000'000});
    CHECK(down.receiver_kpa.points.back().value >= 9.9);
}

TEST_CASE("a command within the delay of the one before cancels it") {
    const std::vector<StrokeCommand> commands{{Micros{100'000}, {1}, Coil::out},
                                              {Micros{110'000}, {1}, Coil::back}};
    const AirRun run = played(rig_of_one(), {}, commands);
    REQUIRE(run.strokes.size() == 2);
    CHECK_FALSE(run.strokes[0].shifted);
    CHECK_FALSE(run.strokes[1].shifted);
    CHECK(run.actuators[0].motion.share_at(1.0) == 0.0);
}

TEST_CASE("a stroke cut short turns and goes back") {
    const std::vector<StrokeCommand> commands{{Micros{100'000}, {1}, Coil::out},
                                              {Micros{190'000}, {1}, Coil::back}};
    const AirRun run = played(rig_of_one(), {}, commands);
    CHECK(run.strokes[0].end == StrokeEnd::turned);
    CHECK(run.strokes[0].furthest < 1.0);
    CHECK(run.strokes[0].furthest > 0.3);
    CHECK(run.strokes[1].end == StrokeEnd::arrives);
}

TEST_CASE("a pilot valve does not shift below its least pressure, and does once it is there") {
    Show show = rig_of_one();
    show.rig.actuators[0].valve.least_kpa_gauge = 450;
    show.rig.air_plant.cut_in_kpa_gauge = 600;
    AirOptions options;
    options.receiver_kpa_gauge = 300.0;
    const std::vector<StrokeCommand> commands{{Micros{100'000}, {1}, Coil::out}};
    const AirRun early = played(show, options, commands, Micros{2'000'000});
    CHECK_FALSE(early.strokes.at(0).shifted);
    CHECK(early.strokes[0].free_air_l < 1e-9 + early.left_receiver_l);
    const AirRun late = played(show, options, commands, Micros{90'000'000});
    CHECK(late.strokes.at(0).shifted);
    REQUIRE(late.strokes[0].strike_s());
    // 150 kPa more in 24 L at 60 L/min of the air around take 36 s and what fills the cylinder.
    CHECK(*late.strokes[0].strike_s() == Approx(36.0).epsilon(0.08));
}

TEST_CASE("the first stroke after air-on has nothing to brake it") {
    Show show = rig_of_one();
    show.rig.actuators[0].flow_controls.out_c_l_s_bar = 0.3;
    const AirModel model = air_model(show);
    const Result<Stroke> first = first_stroke(model, {1});
    REQUIRE(first);
    CHECK(first->end == StrokeEnd::arrives);
    CHECK(first->end_speed_m_s > 1.5 * played(show).strokes[0].end_speed_m_s);
}

TEST_CASE("two on one receiver take from each other") {
    Show show = rig_of_one();
    show.rig.air_plant.receiver_l = 1.5;
    show.rig.air_plant.cut_in_kpa_gauge = 500;
    Actuator second = show.rig.actuators[0];
    second.id = {2};
    second.name = "Lid";
    show.rig.actuators.push_back(second);
    const std::vector<StrokeCommand> one{{Micros{100'000}, {1}, Coil::out}};
    const std::vector<StrokeCommand> both{{Micros{100'000}, {1}, Coil::out},
                                          {Micros{100'000}, {2}, Coil::out}};
    const AirRun alone = played(show, {}, one);
    const AirRun together = played(show, {}, both);
    CHECK(*together.strokes[0].strike_s() > *alone.strokes[0].strike_s() + 1e-3);
    CHECK(*together.strokes[0].strike_s() == Approx(*together.strokes[1].strike_s()).epsilon(1e-9));
    CHECK(together.lowest_receiver_kpa < alone.lowest_receiver_kpa);
}

TEST_CASE("a curve gives the lead to any share of the way") {
    const AirRun run = played(rig_of_one());
    const Stroke& out = run.strokes[0];
    const auto lead = lead_s(run.actuators[0], out, 0.5, run.strokes[1].command.time);
    REQUIRE(lead);
    CHECK(*lead == Approx(*out.reached_s[1]).margin(5e-5));
    CHECK_FALSE(lead_s(run.actuators[0], out, 0.5, Micros{120'000}));
}

TEST_CASE("more pressure is never slower on the same rig") {
    // Where only the supply drives and friction is a force: a piston braked by air on its other side starts
    // later when there is more of it.
    REQUIRE(rc::check([] {
        Show show = lifting_rig();
        Actuator& it = show.rig.actuators[0];
        it.cylinder.bore_mm = between(20, 63);
        it.cylinder.stroke_mm = between(50, 400);
        it.load.mass_kg = between(0.5, 15);
        it.valve.supply_c_l_s_bar = between(0.5, 6);
        AirOptions options;
        options.curves = false;
        const double pressure = between(250, 550);
        show.rig.air_plant.regulator_kpa_gauge = pressure;
        const Stroke low = played(show, options).strokes[0];
        show.rig.air_plant.regulator_kpa_gauge = pressure * between(1.0, 1.3);
        const Stroke high = played(show, options).strokes[0];
        RC_ASSERT(!low.strike_s() || high.strike_s());
        if (low.strike_s()) {
            RC_ASSERT(*high.strike_s() <= *low.strike_s() + 1e-5);
        }
    }));
}

TEST_CASE("more air used never raises the lowest pressure") {
    REQUIRE(rc::check([] {
        Show show = rig_of_one();
        show.rig.air_plant.receiver_l = between(3, 30);
        AirOptions options;
        options.curves = false;
        std::vector<StrokeCommand> commands;
        Micros at{100'000};
        const int strokes = *rc::gen::inRange(1, 5);
        double before = 1e9;
        for (int i = 0; i < strokes; ++i) {
            commands.push_back({at, {1}, i % 2 == 0 ? Coil::out : Coil::back});
            at += Micros{*rc::gen::inRange(900'000, 1'500'000)};
            const AirRun run = played(show, options, commands, Micros{9'000'000});
            RC_ASSERT(run.lowest_receiver_kpa <= before + 1e-6);
            before = run.lowest_receiver_kpa;
        }
        RC_ASSERT(pressure_of(played(show, options, commands), 0) > 0.0);
    }));
}

TEST_CASE("a run that is given up ends with an error at once") {
    const AirModel model = air_model(rig_of_one());
    for_tests::Patience patience(1);
    AirOptions options;
    options.stopped = patience.stopped();
    constexpr std::chrono::seconds length{10};
    const auto run = run_air(model, out_and_back(), length, options);
    REQUIRE_FALSE(run);
    CHECK(run.error().what.find("given up") != std::string::npos);
    CHECK(patience.asked == 2);
    REQUIRE(run_air(model, out_and_back(), length));
}
