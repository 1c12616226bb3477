// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a base that the stroke tips, with anchor force and ballast") {
    CHECK(findings(clean_show(), "base").empty());
    Show show = clean_show();
    show.rig.actuators[0].base.mass_kg = 1.0;
    show.rig.actuators[0].base.depth_mm = 100.0;
    show.rig.actuators[0].load.angle_deg = 0.0;
    const auto found = findings(show, "base");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    CHECK(found[0].remedy.find("ballast") != std::string::npos);
    CHECK(found[0].remedy.find("local code") != std::string::npos);
    show.rig.actuators[0].base.mass_kg.reset();
    CHECK(findings(show, "base").at(0).not_checked);
}
