// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/force_balance.hpp"

#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::for_tests;

namespace {

double least_kpa(const Show& show) {
    return least_moving_kpa_gauge(air_model(show).actuators.at(0));
}

/// 40/16 x 200 mm lifting 10 kg straight up, 10 % of 500 kPa x 1256.6 mm2 = 62.83 N for friction.
Show lunge() {
    Show show = rig_of_one();
    Actuator& it = show.rig.actuators[0];
    it.cylinder.friction_n.reset();
    it.load.friction_percent = 10.0;
    it.load.mass_kg = 10.0;
    it.load.angle_deg = 90.0;
    return show;
}

}  // namespace

TEST_CASE("the least pressure that moves a figure, by hand") {
    // 98.07 N and 62.83 N over 1256.6 mm2.
    CHECK(least_kpa(lunge()) == Approx(78.04 + 50.0).epsilon(1e-3));
    Show geared = lunge();
    geared.rig.actuators[0].load.ratio = 3.0;
    CHECK(least_kpa(geared) == Approx(3 * 78.04 + 50.0).epsilon(1e-3));
    Show sloping = lunge();
    sloping.rig.actuators[0].load.angle_deg = 30.0;
    CHECK(least_kpa(sloping) == Approx(78.04 / 2 + 50.0).epsilon(1e-3));
    Show sticking = lunge();
    sticking.rig.actuators[0].cylinder.friction_n = 20.0;
    sticking.rig.actuators[0].cylinder.static_friction_n = 100.0;
    CHECK(least_kpa(sticking) == Approx(198.07 / 1.2566).epsilon(1e-3));
}

TEST_CASE("a figure that falls out has to be lifted back by the smaller area") {
    Show falling = lunge();
    Actuator& it = falling.rig.actuators[0];
    it.load.angle_deg = -90.0;
    // 98.07 N and 62.83 N over 1055.6 mm2
    CHECK(least_kpa(falling) == Approx(152.4).epsilon(1e-3));
    it.cylinder.action = CylinderAction::single_spring_return;
    it.valve.kind = ValveKind::three_two;
    it.cylinder.spring_n = 25.0;
    CHECK(least_kpa(falling) == 0.0);  // its weight alone stretches the spring
}

TEST_CASE("the worst travel counts, and what the simulation needs there") {
    // A spring that gains 1 N/mm: at 200 mm 200 N.
    Show show = lifting_rig();
    Actuator& it = show.rig.actuators[0];
    it.load.counter_n = 0.0;
    it.load.counter_rate_n_mm = 1.0;
    const double least = least_kpa(show);
    CHECK(least == Approx((20 * 9.80665 + 200.0 + 60.0) / 1.2566).epsilon(1e-3));
    // So slow that it gains nothing from being in motion: a little more pressure gets there, a little less
    // not.
    it.valve.supply_c_l_s_bar = 0.02;
    it.valve.exhaust_c_l_s_bar = 3.0;
    const auto furthest = [&](double set_kpa) {
        show.rig.air_plant.regulator_kpa_gauge = set_kpa;
        const std::vector<StrokeCommand> out{{Micros{0}, {1}, Coil::out}};
        return played(show, {}, out, Micros{200'000'000}).strokes.at(0).furthest;
    };
    CHECK(furthest(least * 1.01) == 1.0);
    CHECK(furthest(least * 0.97) < 0.999);
}
