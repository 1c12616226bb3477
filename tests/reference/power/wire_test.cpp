// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Copper wire, drops and fuses against published tables and examples.
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/power/drops.hpp"
#include "core/power/fuse.hpp"
#include "core/units/gauge.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>
#include <cmath>

using namespace gasp;

namespace {

constexpr double m_per_kft = 304.8;

double per_kft(int gauge, double celsius, bool stranded) {
    return copper_ohm_per_m(area_of_gauge(gauge), celsius, stranded) * m_per_kft;
}

struct GaugeRow {
    int gauge;
    double value;
};

}  // namespace

TEST_CASE("solid copper wire at 20 C") {
    // HyperPhysics, Georgia State University, table of wire gauges: ohm per 1000 ft.
    constexpr std::array<GaugeRow, 14> rows{{{4, 0.2485},
                                             {6, 0.3951},
                                             {8, 0.6282},
                                             {10, 0.9989},
                                             {12, 1.588},
                                             {14, 2.525},
                                             {16, 4.016},
                                             {18, 6.385},
                                             {20, 10.15},
                                             {22, 16.14},
                                             {24, 25.67},
                                             {26, 40.81},
                                             {28, 64.9},
                                             {30, 103.2}}};
    for (const GaugeRow& row : rows) {
        CHECK(per_kft(row.gauge, 20.0, false) == Approx(row.value).epsilon(0.001));
    }
}

TEST_CASE("diameters of the gauges") {
    // The same table, inches; the ends of the series by definition (ASTM B258).
    constexpr std::array<GaugeRow, 7> rows{
        {{-3, 0.46}, {4, 0.20431}, {10, 0.10189}, {14, 0.06408}, {18, 0.0403}, {24, 0.0201}, {36, 0.005}}};
    for (const GaugeRow& row : rows) {
        const double diameter_in = std::sqrt(area_of_gauge(row.gauge) * 4.0 / 3.14159265358979) / 25.4;
        CHECK(diameter_in == Approx(row.value).epsilon(0.001));
    }
}

TEST_CASE("wire at 75 C by NEC chapter 9 table 8") {
    // Reprints at sfasoft.com (Conductor Properties) and voltdropcalc.com; ohm per 1000 ft, uncoated copper.
    constexpr std::array<GaugeRow, 5> solid{{{18, 7.77}, {16, 4.89}, {14, 3.07}, {12, 1.93}, {10, 1.21}}};
    constexpr std::array<GaugeRow, 12> stranded{{{18, 7.95},
                                                 {16, 4.99},
                                                 {14, 3.14},
                                                 {12, 1.98},
                                                 {10, 1.24},
                                                 {8, 0.778},
                                                 {6, 0.491},
                                                 {4, 0.308},
                                                 {2, 0.194},
                                                 {0, 0.122},
                                                 {-1, 0.0967},
                                                 {-3, 0.0608}}};
    for (const GaugeRow& row : solid) {
        CHECK(per_kft(row.gauge, 75.0, false) == Approx(row.value).epsilon(0.006));
    }
    for (const GaugeRow& row : stranded) {
        CHECK(per_kft(row.gauge, working_wire_c, true) == Approx(row.value).epsilon(0.006));
    }
}

TEST_CASE("no flexible wire of IEC 60228 resists more at 20 C than is reckoned with") {
    // Largest resistance at 20 C of class 5 and 6, plain copper, ohm per km (IEC 60228; reprints at
    // mycableengineering.com and etechnik-synergie.com). The standard begins at 0.5 mm2: the two thinner as
    // control cable is sold, from memory.
    constexpr std::array<std::array<double, 2>, 12> rows{{{0.25, 76.0},
                                                          {0.34, 56.0},
                                                          {0.5, 39.0},
                                                          {0.75, 26.0},
                                                          {1.0, 19.5},
                                                          {1.5, 13.3},
                                                          {2.5, 7.98},
                                                          {4.0, 4.95},
                                                          {6.0, 3.30},
                                                          {10.0, 1.91},
                                                          {16.0, 1.21},
                                                          {25.0, 0.780}}};
    for (const auto& [mm2, ohm_per_km] : rows) {
        const double reckoned = copper_ohm_per_m(mm2) * 1000.0;
        CHECK(reckoned >= ohm_per_km);
        CHECK(reckoned < 1.2 * ohm_per_km);
    }
}

TEST_CASE("metric wires are those of IEC 60228 from its thinnest on") {
    // Reprint at mycableengineering.com, IEC 60228 DC resistance, classes 5 and 6.
    constexpr std::array<double, 17> sizes{0.5,  0.75, 1.0,  1.5,  2.5,  4.0,   6.0,   10.0, 16.0,
                                           25.0, 35.0, 50.0, 70.0, 95.0, 120.0, 150.0, 185.0};
    const auto ours = standard_wires_mm2(UnitSystem::metric);
    CHECK(std::ranges::equal(sizes, ours.last(sizes.size())));
    CHECK(ours.size() == sizes.size() + 3);
}

TEST_CASE("temperature factors of the uecables.com reprint of IEC 60228") {
    constexpr std::array<std::array<double, 2>, 4> rows{
        {{50.0, 0.893}, {60.0, 0.862}, {75.0, 0.820}, {90.0, 0.781}}};
    for (const auto& [celsius, factor] : rows) {
        const double ours = copper_ohm_per_m(1.0, 20.0) / copper_ohm_per_m(1.0, celsius);
        CHECK(ours == Approx(factor).epsilon(0.005));
    }
}

TEST_CASE("ampacities of NFPA 79 table 12.5.1") {
    // 60 C insulation (reprint at support.machmotion.com); 14 to 10 AWG as NEC 240.4(D) limits their fuse
    // (reprint at encorewire.com, wire size table).
    constexpr std::array<GaugeRow, 11> rows{{{24, 2.0},
                                             {22, 3.0},
                                             {20, 5.0},
                                             {18, 7.0},
                                             {16, 10.0},
                                             {14, 15.0},
                                             {12, 20.0},
                                             {10, 30.0},
                                             {8, 40.0},
                                             {6, 55.0},
                                             {4, 70.0}}};
    for (const GaugeRow& row : rows) {
        CHECK(ampacity_a(area_of_gauge(row.gauge)) == row.value);
    }
}

TEST_CASE("published drops on 12 V") {
    // ohmicaudio.com, voltage drop in DC circuits: 100 A, 15 ft; 4, 2 and 0 AWG by 0.025, 0.016 and 0.010 ohm
    // per 100 ft there and back counted: 0.75, 0.48, 0.30 V. The example takes the way there and back as
    // twice its 15 ft. Its resistances are rounded to two digits, hence 4 %.
    constexpr std::array<GaugeRow, 3> rows{{{4, 0.75}, {2, 0.48}, {0, 0.30}}};
    for (const GaugeRow& row : rows) {
        const double ohm = copper_ohm_per_m(area_of_gauge(row.gauge), 20.0, false) * 2.0 * 15.0 * 0.3048;
        const std::vector<LoadWay> ways{{ohm, {}}};
        CHECK(drops_at(std::vector{micro_amps(100.0)}, ways, {})[0] == Approx(row.value).epsilon(0.04));
    }
    // doityourselfsolarenergyprojects.blogspot.com, 2010/11: 1 A, 20 m there and back, 1.3 mm2 (16 AWG) at
    // 0.01785 ohm mm2/m: 0.549 V. The resistivity at which it reckons is copper's at 28 C.
    const double ohm = copper_ohm_per_m(1.3, 28.0, false) * 2.0 * 20.0;
    CHECK(drops_at(std::vector{micro_amps(1.0)}, std::vector<LoadWay>{{ohm, {}}}, {})[0] ==
          Approx(0.549).epsilon(0.01));
}

TEST_CASE("published choices of a gauge") {
    // hollandmarine.com, pp. 52-53, by cmil = 10.75 I L / E: 10 A over 21 ft. 3 % of 12 V takes 6271 cmil, so
    // 12 AWG; 10 % takes 1881 cmil, so 16 AWG. Its constant stands for copper at about 29 C, ours for 75 C
    // and strands: 10 AWG and 16 AWG here, and the table of that page chooses 10 and 16 AWG, too.
    const auto gauge = [](double share) {
        return gauge_of_area(
            smallest_wire_mm2({21.0 * 0.3048, 10.0, 12.0 * share, 0.0}, UnitSystem::us).value());
    };
    CHECK(gauge(0.03) == 10);
    CHECK(gauge(0.10) == 16);
}

TEST_CASE("fuses by 1.25 times what flows for long and by the wire") {
    // NEC 210.20(A), 240.4; ABYC E-11: 120 W on 12 V are 10 A, 12.5 A with the quarter, so 15 A.
    CHECK(least_fuse_a(10.0) == 12.5);
    CHECK(fitting_fuse_a(10.0, 0.0, 0.0, ampacity_a(area_of_gauge(14)).value()) == 15.0);
    CHECK_FALSE(fitting_fuse_a(10.0, 0.0, 0.0, ampacity_a(area_of_gauge(16)).value()));
    // A supply by the same rule: eight coils of 0.4 A, 3.2 A, 4.0 A.
    CHECK(least_fuse_a(8 * 0.4) == Approx(4.0));
}

TEST_CASE("a 10 A resistive contact bears 1.0 A of lamp and 1.67 A of motor") {
    // Load types and ratings, a maker's guide: 10 times and 6 times the steady current within the resistive
    // rating. Coils 40 %: MIL-R-6106 style derating, from memory.
    CHECK(10.0 * share_of_resistive(LoadKind::lamp) == Approx(1.0));
    CHECK(10.0 * share_of_resistive(LoadKind::motor) == Approx(1.667).epsilon(0.001));
    CHECK(10.0 * share_of_resistive(LoadKind::coil) == Approx(4.0));
    CHECK(10.0 * share_of_resistive(LoadKind::other) == Approx(10.0));
}
