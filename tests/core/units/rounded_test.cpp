// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/rounded.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

using namespace gasp;
using enum Quantity;
using enum UnitSystem;

TEST_CASE("computed figures are printed to three digits") {
    CHECK(print_rounded(gauge_pressure, 84.3291, metric) == "0.843 bar");
    CHECK(print_rounded(gauge_pressure, 550.0, metric) == "5.5 bar");
    // 1 psi is 6.894757 kPa (NIST SP 811, appendix B.8)
    CHECK(print_rounded(gauge_pressure, 550.0, us) == "79.8 psi");
    CHECK(print_rounded(gauge_pressure, 760.0, us) == "110 psi");
    CHECK(print_rounded(free_air, 37.4567, metric) == "37.5 L");
    CHECK(print_rounded(temperature, 12.0, us) == "53.6 \u00b0F");
}

TEST_CASE("a figure and the limit it breaks never look the same") {
    using Pair = std::pair<std::string, std::string>;
    CHECK(print_apart(gauge_pressure, 84.3291, 150.0, metric) == Pair("0.843 bar", "1.5 bar"));
    CHECK(print_apart(gauge_pressure, 419.87, 420.0, metric) == Pair("4.199 bar", "4.2 bar"));
}

TEST_CASE("what is rounded up is not below what it was, nor a step above") {
    CHECK(print_rounded_up(gauge_pressure, 615.7, metric) == "6.2 bar");
    CHECK(print_rounded_up(gauge_pressure, 620.0, metric) == "6.2 bar");
    CHECK(print_rounded_up(gauge_pressure, 615.7, us) == "90 psi");
    CHECK(print_rounded_up(volume, 21.6, metric) == "22 L");
    REQUIRE(rc::check([] {
        const double kpa = *rc::gen::inRange(0, 2'000'000) / 1000.0;
        for (const auto& [system, step] : {std::pair(metric, 10.0), std::pair(us, 6.894757293168)}) {
            const double up = rounded_up(gauge_pressure, kpa, system);
            RC_ASSERT(up >= kpa - 1e-6);
            RC_ASSERT(up < kpa + step);
        }
    }));
}
