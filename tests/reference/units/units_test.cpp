// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/quantity.hpp"
#include "tests/support/catch.hpp"

#include <string_view>

// Factors of published tables, to all their digits. The values are from memory, the tables named beside them
// were not at hand: "SP 811" is NIST Special Publication 811 (2008), appendix B.8; "HB 44" NIST Handbook 44,
// appendix C.

using namespace gasp;
using Q = Quantity;

namespace {

/// What is written, in SI.
double in_si(Q quantity, std::string_view text) {
    const auto value = parse_quantity(quantity, text, UnitSystem::metric);
    INFO(text);
    REQUIRE(value);
    return si(quantity, *value);
}

/// Values are kept to nine digits.
Approx nine_digits(double value) {
    return Approx(value).epsilon(5e-9).margin(0);
}

}  // namespace

TEST_CASE("lengths") {
    CHECK(in_si(Q::small_length, "1 in") == nine_digits(2.54e-2));  // SP 811, exact
    CHECK(in_si(Q::small_length, "1 ft") == nine_digits(0.3048));   // SP 811, exact
    CHECK(in_si(Q::length, "1 ft") == nine_digits(0.3048));         // SP 811, exact
    CHECK(in_si(Q::length, "1 in") == nine_digits(2.54e-2));        // SP 811, exact
}

TEST_CASE("masses and forces") {
    CHECK(in_si(Q::mass, "1 lb") == nine_digits(0.45359237));                 // SP 811 (avoirdupois), exact
    CHECK(in_si(Q::mass, "1 oz") == nine_digits(2.834952e-2).epsilon(2e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::force, "1 kgf") == nine_digits(9.80665));                  // SP 811, exact
    CHECK(in_si(Q::force, "1 lbf") == nine_digits(4.448222).epsilon(2e-7));   // SP 811, 7 digits
}

TEST_CASE("pressures") {
    CHECK(in_si(Q::gauge_pressure, "1 psi") == nine_digits(6.894757e3).epsilon(2e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::gauge_pressure, "1 bar") == nine_digits(1e5));                       // SP 811, exact
    CHECK(in_si(Q::gauge_pressure, "1 mbar") == nine_digits(1e2));                      // SP 811, exact
    CHECK(in_si(Q::gauge_pressure, "1 kgf/cm2") == nine_digits(9.80665e4));             // SP 811, exact
}

TEST_CASE("volumes and flows") {
    CHECK(in_si(Q::volume, "1 gal") == nine_digits(3.785412e-3).epsilon(2e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::volume, "1 gal") ==
          nine_digits(231 * in_si(Q::volume, "1 cu in")));                         // HB 44: 231 cubic inches
    CHECK(in_si(Q::volume, "1 imp gal") == nine_digits(4.54609e-3));               // SP 811, exact
    CHECK(in_si(Q::volume, "1 cu ft") == nine_digits(2.831685e-2).epsilon(2e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::volume, "1 cu in") == nine_digits(1.638706e-5).epsilon(4e-7));  // SP 811, 7 digits
    // SP 811, cubic foot per minute, 7 digits; that a standard foot is a foot of free air is our assumption.
    CHECK(in_si(Q::free_air_flow, "1 scfm") == nine_digits(4.719474e-4).epsilon(2e-7));
    CHECK(in_si(Q::free_air_flow, "1 m3/h") == nine_digits(1 / 3600.0));
}

TEST_CASE("springs, speeds and energy") {
    CHECK(in_si(Q::stiffness, "1 lbf/in") == nine_digits(1.751268e2).epsilon(2e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::damping, "1 lbf s/in") == nine_digits(1.751268e2).epsilon(2e-7));  // the same over s
    CHECK(in_si(Q::speed, "1 ft/s") == nine_digits(0.3048));                          // SP 811, exact
    CHECK(in_si(Q::energy, "1 ft lbf") == nine_digits(1.355818).epsilon(3e-7));       // SP 811, 7 digits
}

TEST_CASE("sonic conductance") {
    CHECK(in_si(Q::conductance, "1 dm3/(s bar)") == nine_digits(1e-8));  // SP 811: 1e-3 m3 and 1e5 Pa
    // Rules between coefficients, good to 15 or 20 % only: Kv = 0.865 Cv, C = 4 Cv (teaching texts on
    // pneumatics; the choked-flow equation of American practice gives 3.4).
    CHECK(in_si(Q::conductance, "1 Cv") == nine_digits(4e-8));
    CHECK(in_si(Q::conductance, "1 Kv") == Approx(in_si(Q::conductance, "1 Cv") / 0.865));
}

TEST_CASE("temperatures") {
    // ITS-90 and SP 811: water freezes at 32 F and, at one atmosphere, boils at 212 F (its 1990 value is 0.03
    // K less).
    CHECK(in_si(Q::temperature, "32 F") == nine_digits(273.15));
    CHECK(in_si(Q::temperature, "212 F") == nine_digits(373.15));
    CHECK(in_si(Q::temperature, "-40 F") == nine_digits(233.15));
    CHECK(in_si(Q::temperature, "-40 C") == nine_digits(233.15));
}

TEST_CASE("angles and rates") {
    CHECK(in_si(Q::angle, "1 deg") == nine_digits(1.745329e-2).epsilon(4e-7));  // SP 811, 7 digits
    CHECK(in_si(Q::angle, "1 rad") == nine_digits(1));
    CHECK(in_si(Q::frequency, "60 /min") == nine_digits(1));
}
