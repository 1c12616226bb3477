// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/force_balance.hpp"
#include "tests/reference/air/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::reference;

// The least pressure that moves a figure against published force tables, read backwards: a weight as large as
// the printed force needs the printed pressure.

namespace {

constexpr double newtons_in_pound = 4.4482216152605;

double lifting_kpa(Actuator actuator, double newtons, double angle_deg = 90.0) {
    actuator.load.mass_kg = newtons / standard_gravity;
    actuator.load.angle_deg = angle_deg;
    const AirModel model = model_of(plant_at("6 bar"), actuator);
    return least_moving_kpa_gauge(model.actuators.at(0));
}

double kpa(double psi) {
    return psi * 6.894757293168;
}

}  // namespace

TEST_CASE("force of a 1 1/2 in bore at 80 psi", "[reference]") {
    // Machine Design, "A few guidelines for figuring pneumatic actuator load requirements": 141 lbf.
    CHECK(lifting_kpa(cylinder("1.5 in", "0.5 in", "4 in"), 141 * newtons_in_pound) ==
          Approx(kpa(80)).epsilon(0.5 / 141));
}

TEST_CASE("force of a 50 mm bore at 0.6 MPa", "[reference]") {
    // readycalculator.com, pneumatic cylinder force: 1178 N out. Its 942 N back is a slip: 6 bar on a 50/20
    // mm annulus is 990 N (ISO 15552 catalogues; from memory).
    CHECK(lifting_kpa(cylinder("50 mm", "20 mm", "100 mm"), 1178) == Approx(600).epsilon(0.5 / 1178));
    CHECK(lifting_kpa(cylinder("50 mm", "20 mm", "100 mm"), 990, -90.0) == Approx(600).epsilon(0.5 / 990));
}

TEST_CASE("push forces at 10 bar", "[reference]") {
    // actuatec.com push-force table, printed to 0.1 kN.
    const char* bores[] = {"40 mm", "50 mm", "63 mm", "80 mm", "100 mm"};
    const double forces[] = {1300, 2000, 3100, 5000, 7900};
    for (int i = 0; i < 5; ++i) {
        CHECK(lifting_kpa(cylinder(bores[i], "20 mm", "100 mm"), forces[i]) ==
              Approx(1000).epsilon(50 / forces[i]));
    }
}

TEST_CASE("forces of standard bores at 6 bar", "[reference]") {
    // Area times pressure, as in ISO 15552 catalogues; from memory.
    const char* bores[] = {"20 mm", "25 mm", "32 mm", "40 mm", "50 mm", "63 mm", "80 mm", "100 mm"};
    const double forces[] = {188, 295, 483, 754, 1178, 1870, 3016, 4712};
    for (int i = 0; i < 8; ++i) {
        CHECK(lifting_kpa(cylinder(bores[i], "8 mm", "100 mm"), forces[i]) ==
              Approx(600).epsilon(0.5 / forces[i]));
    }
    const char* backs[][2] = {{"32 mm", "12 mm"}, {"40 mm", "16 mm"}, {"63 mm", "20 mm"}, {"80 mm", "25 mm"}};
    const double back_forces[] = {415, 633, 1682, 2721};
    for (int i = 0; i < 4; ++i) {
        CHECK(lifting_kpa(cylinder(backs[i][0], backs[i][1], "100 mm"), back_forces[i], -90.0) ==
              Approx(600).epsilon(0.5 / back_forces[i]));
    }
}

TEST_CASE("forces of US bores", "[reference]") {
    // Area times pressure, as in standard bore charts; from memory.
    CHECK(lifting_kpa(cylinder("2 in", "0.625 in", "4 in"), 188.5 * newtons_in_pound) ==
          Approx(kpa(60)).epsilon(0.001));
    CHECK(lifting_kpa(cylinder("3/4 in", "0.25 in", "4 in"), 44.2 * newtons_in_pound) ==
          Approx(kpa(100)).epsilon(0.001));
    CHECK(lifting_kpa(cylinder("1 1/16 in", "0.3125 in", "4 in"), 88.7 * newtons_in_pound) ==
          Approx(kpa(100)).epsilon(0.001));
}

TEST_CASE("a single-acting cylinder works against its spring", "[reference]") {
    // Maker's instruction sheet R431004026, p. 5: 2.4 in2 of piston, a spring worth 20 psi, 80 psi: 144 lbf.
    Actuator actuator = single_acting("1.7481 in", "2 in");  // 2.4 in2
    actuator.cylinder.spring_n = 20 * 2.4 * newtons_in_pound;
    CHECK(lifting_kpa(actuator, 144 * newtons_in_pound) == Approx(kpa(80)).epsilon(0.01));
}
