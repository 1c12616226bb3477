// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/handbook.hpp"

#include "core/air/sizing/standard_sizes.hpp"
#include "tests/reference/air/rig.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>

using namespace gasp;
using namespace gasp::reference;

// The first guesses of sizing, and the tables of standard sizes, against published tables in both systems of
// units.

namespace {

constexpr double newtons_in_pound = 4.4482216152605;
constexpr double kpa_in_psi = 6.894757293168;
constexpr double litres_in_gal = 3.785411784;

double pounds(std::string_view bore, std::string_view rod, double psi) {
    return piston_force_n(length(bore), length(rod), psi * kpa_in_psi) / newtons_in_pound;
}

const BoreSize& size_of(UnitSystem system, double bore_mm) {
    const auto sizes = standard_bores(system);
    const auto size = std::ranges::find_if(
        sizes, [&](const BoreSize& each) { return std::abs(each.bore_mm - bore_mm) < 1e-9; });
    REQUIRE(size != sizes.end());
    return *size;
}

}  // namespace

TEST_CASE("forces of the standard cylinders at 6 bar, out and back", "[reference]") {
    // Area times pressure as in ISO 15552 and ISO 6432 catalogues; from memory.
    const std::array bores{20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0};
    const std::array out{188.0, 295.0, 483.0, 754.0, 1178.0, 1870.0, 3016.0, 4712.0};
    for (std::size_t i = 0; i < bores.size(); ++i) {
        CHECK(piston_force_n(bores[i], 0.0, 600.0) == Approx(out[i]).margin(0.6));
    }
    const std::array back{415.0, 633.0, 990.0, 1682.0, 2721.0, 4418.0};
    for (std::size_t i = 0; i < back.size(); ++i) {
        const BoreSize& size = size_of(UnitSystem::metric, bores[i + 2]);
        CHECK(piston_force_n(size.bore_mm, size.rod_mm, 600.0) == Approx(back[i]).margin(0.6));
    }
}

TEST_CASE("areas of the standard cylinders, out and back", "[reference]") {
    // Pneumax general catalogue, appendix "Cylinder air consumption", p. 1077, tables 1 and 2: dm2, with pi
    // taken as 3.14.
    const std::array bores{20.0, 25.0, 32.0, 40.0, 50.0, 63.0, 80.0, 100.0};
    const std::array pistons{0.03140, 0.04906, 0.08038, 0.12560, 0.19625, 0.31157, 0.50240, 0.78500};
    const std::array annuli{0.06908, 0.10550, 0.16485, 0.28017, 0.45334, 0.73594};
    for (std::size_t i = 0; i < bores.size(); ++i) {
        const BoreSize& size = size_of(UnitSystem::metric, bores[i]);
        CHECK(piston_force_n(size.bore_mm, 0.0, 1.0) / 10.0 == Approx(pistons[i]).epsilon(0.001));
        if (i >= 2) {
            CHECK(piston_force_n(size.bore_mm, size.rod_mm, 1.0) / 10.0 ==
                  Approx(annuli[i - 2]).epsilon(0.001));
        }
    }
}

TEST_CASE("forces of cylinders in pounds", "[reference]") {
    // Machine Design, "A few guidelines for figuring pneumatic actuator load requirements": 141 lbf.
    CHECK(pounds("1.5 in", "0 in", 80) == Approx(141).margin(0.5));
    // Standard bore charts, area times pressure; from memory.
    CHECK(pounds("2 in", "0 in", 60) == Approx(188.5).epsilon(0.001));
    CHECK(pounds("2 in", "0 in", 80) == Approx(251.3).epsilon(0.001));
    CHECK(pounds("2 in", "0 in", 100) == Approx(314.2).epsilon(0.001));
    const std::array bores{"3/4 in", "1 1/16 in", "2 1/2 in", "3 1/4 in", "4 in"};
    const std::array forces{44.2, 88.7, 490.9, 829.6, 1256.6};
    for (std::size_t i = 0; i < bores.size(); ++i) {
        CHECK(pounds(bores[i], "0 in", 100) == Approx(forces[i]).epsilon(0.001));
        CHECK(size_of(UnitSystem::us, length(bores[i])).rod_mm > 0.0);
    }
    // readycalculator.com, pneumatic cylinder force: 0.6 MPa on 50 mm, 1178 N; read backwards.
    CHECK(bore_for_force_mm(1178.0, 600.0) == Approx(50.0).epsilon(0.001));
}

TEST_CASE("speeds of pistons behind a choked exhaust", "[reference]") {
    // Open teaching text on pneumatics, topic "flow-control".
    CHECK(choked_exhaust_speed_m_s(0.1, 50, 20) == Approx(0.061).epsilon(0.03));
    CHECK(choked_exhaust_speed_m_s(1.0, 50, 20) == Approx(0.606).epsilon(0.03));
    CHECK(conductance_for_speed_l_s_bar(0.25, 63, 0) == Approx(0.779).epsilon(0.03));
    CHECK(choked_exhaust_speed_m_s(0.7442, 32, 12) == Approx(1.08).epsilon(0.01));
}

TEST_CASE("receivers for a draw", "[reference]") {
    // Oak Ridge National Laboratory, AMO-Tools-Suite, tests/cpp/CompressedAir.unit.cpp: dedicated storage of
    // 0.5 min at 100 cfm from 110 to 100 psi, 549.78 gal; general method, 150 cu ft with a drop of 3 psi,
    // 5497.8 gal; both at 14.7 psia and with 7.48 gal to the cubic foot.
    const double ambient = 14.7 * kpa_in_psi;
    const auto gallons = [&](double cubic_feet, double psi) {
        return receiver_for_draw_l(cubic_feet * litres_in_cubic_foot, psi * kpa_in_psi, ambient) /
               litres_in_gal;
    };
    CHECK(gallons(50.0, 10.0) == Approx(549.78).epsilon(0.0002));
    CHECK(gallons(150.0, 3.0) == Approx(5497.8).epsilon(0.0002));
    // A. Esposito, Fluid Power with Applications, example 13-7: 20 scfm for 6 min, 100 to 80 psi, 660 gal.
    CHECK(gallons(120.0, 20.0) == Approx(660.0).epsilon(0.005));
    // A. Srivastava, air receiver sizing sheet: 100 cfm short for 5 min, 100 to 60 psi, 1374.5 gal.
    CHECK(gallons(500.0, 40.0) == Approx(1374.5).epsilon(0.001));
}

TEST_CASE("the starts of a compressor", "[reference]") {
    // t_off = V dp / (draw pa), t_on = V dp / ((delivery - draw) pa); A. Srivastava, air receiver sizing
    // sheet.
    const double volume = receiver_for_starts_l(20.0, 50.0, 10.0, 200.0, 101.325);
    const double off_min = volume * 200.0 / (20.0 * 101.325);
    const double on_min = volume * 200.0 / (30.0 * 101.325);
    CHECK(60.0 / (off_min + on_min) == Approx(10.0));
    CHECK(receiver_for_starts_l(50.0, 50.0, 10.0, 200.0, 101.325) == 0.0);
}

TEST_CASE("tubes hold what is published of them", "[reference]") {
    // Open teaching text on pneumatics, topic "tubing-length-effect": bore 2.5, 4, 5.5, 7.5, 9 mm hold 4.9,
    // 12.6, 23.8, 44.2, 63.6 cm3 a metre.
    const std::array volumes{4.9, 12.6, 23.8, 44.2, 63.6};
    const auto tubes = standard_tubes(UnitSystem::metric);
    for (std::size_t i = 0; i < volumes.size(); ++i) {
        const double metre =
            piston_force_n(tubes[i].bore_mm, 0.0, 1.0);  // area in mm2 is cm3 a metre, x 1e-3
        CHECK(metre * 1000.0 == Approx(volumes[i]).epsilon(0.01));
    }
}

TEST_CASE("tables of standard sizes go upwards and hold together") {
    for (const UnitSystem system : {UnitSystem::metric, UnitSystem::us}) {
        CHECK(std::ranges::is_sorted(standard_bores(system), {}, &BoreSize::bore_mm));
        CHECK(std::ranges::is_sorted(standard_tubes(system), {}, &TubeSize::bore_mm));
        CHECK(std::ranges::is_sorted(standard_ports(system), {}, &PortSize::c_l_s_bar));
        CHECK(std::ranges::is_sorted(standard_receivers(system), {}, &ReceiverSize::volume_l));
        for (const BoreSize& size : standard_bores(system)) {
            CHECK(size.rod_mm < 0.6 * size.bore_mm);
        }
        for (const TubeSize& tube : standard_tubes(system)) {
            CHECK(tube.bore_mm < tube.outside_mm);
        }
    }
}
