// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

std::string said(const Show& show) {
    const auto found = findings(show, "failure");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::note);
    return found[0].what;
}

}  // namespace

TEST_CASE("what a figure does without power and without air") {
    Show show = clean_show();
    Actuator& actuator = show.rig.actuators[0];
    CHECK(said(show) ==
          "\"Keeper\": without power it is driven back by air; without air it drops back if it is out");
    actuator.load.angle_deg = 0.0;
    CHECK(said(show).find("without air it stays where it is") != std::string::npos);
    actuator.load.angle_deg = -90.0;
    CHECK(said(show).find("without air it drops out if it is back") != std::string::npos);
    actuator.valve.kind = ValveKind::five_two_two_coils;
    CHECK(said(show).find("stays where it was sent last") != std::string::npos);
    actuator.valve.kind = ValveKind::three_two;
    actuator.cylinder.action = CylinderAction::single_gravity_return;
    actuator.load.angle_deg = 0.0;
    CHECK(said(show).find("it stays up") != std::string::npos);
    CHECK(findings(stated_show(), "failure").empty());
    CHECK_FALSE(findings(stated_show(), "simulated").empty());
}
