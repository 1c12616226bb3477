// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/linkage.hpp"

#include "core/air/run/air_system.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <cmath>

using namespace gasp;
using namespace gasp::for_tests;

namespace {

Actuator lever() {
    Actuator it;
    it.name = "Keeper";
    it.linkage.kind = LinkageKind::lever;
    it.linkage.foot_mm = 420;
    it.linkage.pin_mm = 180;
    it.linkage.closed_mm = 330;
    it.linkage.arm_mm = 600;
    it.linkage.arm_deg = -50;
    return it;
}

Actuator swing_arms() {
    Actuator it = lever();
    it.linkage.kind = LinkageKind::swing_arms;
    it.linkage.second_arm_mm = 500;
    it.linkage.coupler_mm = 300;
    it.linkage.ground_mm = 250;
    it.linkage.ground_deg = 10;
    it.linkage.arm_deg = 60;
    it.linkage.mass_percent = 70;
    return it;
}

Actuator measured() {
    Actuator it;
    it.name = "Keeper";
    it.linkage.kind = LinkageKind::table;
    it.linkage.arm_mm = 450;
    it.linkage.points = {{0, -20}, {50, 8}, {90, 26}, {150, 52}, {200, 80}};
    return it;
}

constexpr double stroke = 0.2;

}  // namespace

TEST_CASE("slopes are those of the heights, bends those of the paths") {
    for (const Actuator& actuator : {lever(), swing_arms(), measured()}) {
        const double way = actuator.linkage.kind == LinkageKind::swing_arms ? 0.08 : stroke;
        const Result<Mechanism> made = Mechanism::make(actuator, way);
        REQUIRE(made);
        CHECK(made->at(0.0).height == Approx(0.0).margin(1e-12));
        constexpr double h = 1e-6;
        for (double x = 0.01; x < way - 0.005; x += 0.013) {
            INFO(x);
            const Gearing here = made->at(x);
            CHECK(here.height_slope == Approx((made->at(x + h).height - made->at(x - h).height) / (2 * h))
                                           .epsilon(1e-5)
                                           .margin(1e-6));
            CHECK(2 * here.path_bend ==
                  Approx((made->at(x + h).path_squared - made->at(x - h).path_squared) / (2 * h))
                      .epsilon(1e-4)
                      .margin(1e-4));
            CHECK(here.path_squared >= here.height_slope * here.height_slope * (1 - 1e-12));
        }
    }
}

TEST_CASE("a parallelogram carries its figure along the arm's circle") {
    Actuator it = swing_arms();
    it.linkage.second_arm_mm = *it.linkage.arm_mm;
    it.linkage.coupler_mm = *it.linkage.ground_mm;
    const Mechanism four_bar = Mechanism::make(it, 0.05).value();
    it.linkage.kind = LinkageKind::lever;
    const Mechanism arm = Mechanism::make(it, 0.05).value();
    for (double x = 0.0; x <= 0.05; x += 0.01) {
        CHECK(four_bar.at(x).height == Approx(arm.at(x).height).margin(1e-9));
        CHECK(four_bar.at(x).path_squared == Approx(arm.at(x).path_squared).epsilon(1e-9));
    }
}

TEST_CASE("a table is passed through at its points") {
    const Mechanism made = Mechanism::make(measured(), stroke).value();
    for (const LinkagePoint& point : measured().linkage.points) {
        const double slope = point.arm_deg * std::acos(-1.0) / 180;
        CHECK(made.at(point.travel_mm / 1e3).height ==
              Approx(0.45 * (std::sin(slope) - std::sin(-20 * std::acos(-1.0) / 180))).margin(1e-12));
    }
}

TEST_CASE("a linkage that locks within the stroke is refused, with the place") {
    Actuator it = lever();
    // Foot, pivot and pin stand in one line where the cylinder is 420 + 180 = 600 mm long: at 270 mm.
    const Result<Mechanism> locked = Mechanism::make(it, 0.3);
    REQUIRE_FALSE(locked);
    const std::string& what = locked.error().what;
    INFO(what);
    CHECK((what.find("locks at 269.") != std::string::npos ||
           what.find("locks at 270.0") != std::string::npos));
    CHECK(Mechanism::make(it, 0.25));

    Actuator crossed = swing_arms();
    crossed.linkage.second_arm_mm = 100;
    REQUIRE_FALSE(Mechanism::make(crossed, 0.08));
    CHECK(Mechanism::make(crossed, 0.08).error().what.find("locks at") != std::string::npos);

    Actuator back = measured();
    back.linkage.points = {{0, 0}, {70, 60}, {140, 20}, {200, 90}};
    REQUIRE_FALSE(Mechanism::make(back, stroke));
    CHECK(Mechanism::make(back, stroke).error().what.find("turns back") != std::string::npos);
}

TEST_CASE("a linkage with something blank names it") {
    Actuator it = lever();
    it.linkage.pin_mm.reset();
    const auto blanks = blanks_of_linkage(it);
    REQUIRE(blanks.size() == 1);
    CHECK(blanks[0].key == "linkage.pin_mm");
    REQUIRE_FALSE(Mechanism::make(it, stroke));
    CHECK(Mechanism::make(it, stroke).error().where == "linkage.pin_mm");
    Actuator few = measured();
    few.linkage.points.resize(3);
    CHECK(Mechanism::make(few, stroke).error().where == "linkage.points_mm_deg");
}

TEST_CASE("energy is conserved: what the air brings goes into heat, height, springs, friction and speed") {
    Show show = rig_of_one();
    Actuator& it = show.rig.actuators[0];
    const Linkage linkage = lever().linkage;
    it.linkage = linkage;
    it.load.counter_n = -60;
    it.load.counter_rate_n_mm = 0.4;
    it.cylinder.viscous_n_s_m = 30;
    const AirModel model = air_model(show);
    REQUIRE(model.actuators.size() == 1);
    AirSystem system(model.plant);
    system.add(model.actuators[0]);
    system.receiver_mass = system.receiver_mass_at(7e5);
    AirUnit& unit = system.units[0];
    system.settle({.ambient = false, .source = system.source_pressure(7e5)});
    unit.awake = true;
    unit.hold = Hold::moving_out;
    unit.supplied_out = true;
    unit.travel = 0.07;
    unit.speed = 1.3;
    unit.out_air.mass *= 4.0;
    unit.out_air.energy *= 4.4;
    std::vector<double> y;
    system.lay_out(y, 0.0, false);
    std::vector<double> slopes(y.size());
    system.derive(y.data(), slopes.data());

    const ActuatorModel& m = model.actuators[0];
    const Gearing gearing = m.mechanism.at(unit.travel);
    const double mass = m.rod_mass + m.mass * gearing.path_squared;
    const double kinetic =
        mass * unit.speed * slopes[1] + m.mass * gearing.path_bend * std::pow(unit.speed, 3);
    const double height = m.mass * standard_gravity * gearing.height_slope * unit.speed;
    const double spring = (m.spring_force + m.spring_rate * unit.travel) * unit.speed;
    const double friction = (m.moving_friction + m.viscous * unit.speed) * unit.speed;
    const double around = model.plant.ambient_pressure * (m.out_area - m.back_area) * unit.speed;
    const ChamberPoint out = system.out_point(unit, unit.out_air, unit.travel);
    const ChamberPoint back = system.back_point(unit, unit.back_air, unit.travel);
    const auto heat = [&](const Chamber& end, const ChamberPoint& point, double way) {
        return m.heat_transfer * (end.closed_surface + end.girth * way) *
               (point.temperature - model.plant.ambient_temperature);
    };
    const double lost = heat(unit.out, out, unit.travel) + heat(unit.back, back, m.stroke - unit.travel);
    const double brought = slopes[2] * heat_cp * model.plant.ambient_temperature +
                           slopes[4] * heat_cp * back.temperature;  // in, and out at the back
    CHECK(slopes[2] > 0.0);
    CHECK(slopes[4] < 0.0);
    const double stored = slopes[3] + slopes[5];
    CHECK(stored + kinetic + height + spring + friction + around + lost == Approx(brought).epsilon(1e-9));
}
