// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/conductor.hpp"

#include "core/units/gauge.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;

TEST_CASE("resistance falls with the area and rises with the temperature") {
    CHECK(copper_ohm_per_m(2.0) == Approx(copper_ohm_per_m(1.0) / 2.0));
    CHECK(copper_ohm_per_m(1.0, 75.0) / copper_ohm_per_m(1.0, 20.0) == Approx(1.0 + 0.00393 * 55.0));
    CHECK(copper_ohm_per_m(1.0, 20.0, false) == Approx(1.0 / 58.0));
}

TEST_CASE("ampacity rises with the area, meets its table and ends where wire is too thin") {
    CHECK(ampacity_a(area_of_gauge(18)) == 7.0);
    CHECK(ampacity_a(0.823) == 7.0);  // 18 AWG as a file or a person rounds it
    CHECK(ampacity_a(0.82) == 7.0);
    CHECK(*ampacity_a(0.75) > 5.0);
    CHECK(*ampacity_a(0.75) < 7.0);
    CHECK(ampacity_a(500.0) == 195.0);
    CHECK(ampacity_a(area_of_gauge(30)) == 0.5);
    CHECK_FALSE(ampacity_a(0.04));
    CHECK_FALSE(ampacity_a(0.0));
    double before = 0.0;
    for (double mm2 = 0.06; mm2 < 120.0; mm2 *= 1.01) {
        const double now = ampacity_a(mm2).value();
        CHECK(now >= before);
        before = now;
    }
}

TEST_CASE("the smallest wire keeps the drop and bears its fuse") {
    // 20 m of copper, 1 A, 0.6 V: 0.6 ohm, 0.71 mm2 at 75 C with its strands.
    CHECK(smallest_wire_mm2({20.0, 1.0, 0.6, 0.0}, UnitSystem::metric) == 0.75);
    CHECK(smallest_wire_mm2({20.0, 1.0, 0.6, 10.0}, UnitSystem::metric) == 1.5);
    CHECK(gauge_of_area(smallest_wire_mm2({20.0, 1.0, 0.6, 0.0}, UnitSystem::us).value()) == 18);
    CHECK(smallest_wire_mm2({0.0, 0.4, 0.0, 0.0}, UnitSystem::metric) == 0.14);
    CHECK_FALSE(smallest_wire_mm2({5000.0, 50.0, 0.1, 0.0}, UnitSystem::metric));
}
