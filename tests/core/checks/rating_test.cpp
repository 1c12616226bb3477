// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a pressure above what a part is rated for") {
    CHECK(findings(clean_show(), "rating").empty());
    Show show = clean_show();
    show.rig.actuators[0].cylinder.rating_kpa_gauge = 700.0;  // cut-out is 850
    auto found = findings(show, "rating");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    show.rig.actuators[0].cylinder.rating_kpa_gauge = 400.0;  // the regulator is at 500
    found = findings(show, "rating");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].remedy == "Set the regulator to 4 bar or less");
    show.rig.actuators[0].cylinder.rating_kpa_gauge.reset();
    CHECK(findings(show, "rating").at(0).not_checked);
}
