// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/stroke_air.hpp"

#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp;

namespace {

AirPlant plant_at(double kpa_gauge) {
    AirPlant plant;
    plant.regulator_kpa_gauge = kpa_gauge;
    return plant;
}

/// 40/16 x 100 mm on a 5/2 valve, 2 m of 4 mm tube, lifting 10 kg straight up.
Actuator lunge() {
    Actuator actuator;
    actuator.id = {3};
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 40.0;
    actuator.cylinder.rod_mm = 16.0;
    actuator.cylinder.stroke_mm = 100.0;
    actuator.tube.length_m = 2.0;
    actuator.tube.bore_mm = 4.0;
    actuator.load.mass_kg = 10.0;
    actuator.load.angle_deg = 90.0;
    actuator.load.ratio = 1.0;
    actuator.load.friction_percent = 10.0;
    return actuator;
}

}  // namespace

TEST_CASE("free air of a stroke, by hand") {
    // 6 bar gauge at sea level: swept 0.125664 L x 7.01325, tube 0.0251327 L x 6; back 0.105558 L.
    const StrokeAir air = stroke_air(plant_at(600.0), lunge()).value();
    CHECK(air.out_l == Approx(0.125664 * 7.01325 + 0.0251327 * 6.0).epsilon(1e-5));
    CHECK(air.back_l == Approx(0.105558 * 7.01325 + 0.0251327 * 6.0).epsilon(1e-5));
}

TEST_CASE("only a double-acting cylinder on a 5/2 valve takes air on its way back") {
    Actuator actuator = lunge();
    actuator.cylinder.action = CylinderAction::single_gravity_return;
    CHECK(stroke_air(plant_at(600.0), actuator)->back_l == 0.0);
    actuator.cylinder.action = CylinderAction::double_acting;
    actuator.valve.kind = ValveKind::three_two;
    CHECK(stroke_air(plant_at(600.0), actuator)->back_l == 0.0);
    actuator.cylinder.rod_mm.reset();  // not needed then
    CHECK(stroke_air(plant_at(600.0), actuator).has_value());
    actuator.valve.kind = ValveKind::five_two_two_coils;
    CHECK_FALSE(stroke_air(plant_at(600.0), actuator).has_value());
}

TEST_CASE("a blank field is named, never guessed") {
    Actuator actuator = lunge();
    actuator.tube.bore_mm.reset();
    const auto refused = stroke_air(plant_at(600.0), actuator);
    REQUIRE_FALSE(refused.has_value());
    CHECK(refused.error().text() ==
          "tube.bore_mm: no tube bore of \"Keeper\". Fill in the tube bore of \"Keeper\".");
    CHECK(blanks_of_stroke_air({}, Actuator{}).size() == 6);
    CHECK_FALSE(least_lifting_kpa_gauge(Actuator{}).has_value());
}

TEST_CASE("in thin air a gauge pressure is less air") {
    AirPlant high = plant_at(600.0);
    high.altitude_m = 2400.0;  // 75.6 kPa
    CHECK(stroke_air(high, lunge())->out_l < stroke_air(plant_at(600.0), lunge())->out_l);
}

TEST_CASE("least lifting pressure, by hand") {
    // 10 kg x 9.80665 = 98.07 N over 1256.6 mm2, of which friction leaves 90 %: 86.71 kPa.
    CHECK(least_lifting_kpa_gauge(lunge()).value() == Approx(86.71).epsilon(1e-4));
    Actuator lever = lunge();
    lever.load.ratio = 3.0;
    CHECK(least_lifting_kpa_gauge(lever).value() == Approx(3 * 86.71).epsilon(1e-4));
    Actuator sloping = lunge();
    sloping.load.angle_deg = 30.0;
    CHECK(least_lifting_kpa_gauge(sloping).value() == Approx(86.71 / 2).epsilon(1e-4));
}

TEST_CASE("a figure that falls out has to be lifted back by the smaller area") {
    Actuator falling = lunge();
    falling.load.angle_deg = -90.0;
    // 98.07 N over 1055.6 mm2 x 0.9
    CHECK(least_lifting_kpa_gauge(falling).value() == Approx(103.23).epsilon(1e-4));
    falling.cylinder.action = CylinderAction::single_spring_return;
    falling.cylinder.spring_n = 50.0;
    CHECK(least_lifting_kpa_gauge(falling).value() == 0.0);  // its weight alone stretches the spring
}
