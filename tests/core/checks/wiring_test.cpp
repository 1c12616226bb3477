// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("valve and cylinder have to agree") {
    Show show = clean_show();
    show.rig.actuators[0].valve.kind = ValveKind::three_two;
    CHECK(texts(show, "wiring") == Lines{"stop: The 3/2 valve of \"Keeper\" cannot drive its double-acting "
                                         "cylinder back. Take a 5/2 valve."});
    show.rig.actuators[0].cylinder.action = CylinderAction::single_gravity_return;
    CHECK(texts(show, "wiring").empty());
    show.rig.actuators[0].valve.kind = ValveKind::five_two_one_coil;
    CHECK(texts(show, "wiring") ==
          Lines{"note: The 5/2 valve of \"Keeper\" has a port its single-acting cylinder does not "
                "use. Plug the second port."});
}

TEST_CASE("a valve with two coils needs a channel for each") {
    Show show = clean_show();
    show.rig.actuators[0].valve.kind = ValveKind::five_two_two_coils;
    CHECK(texts(show, "wiring") ==
          Lines{"stop: The valve of \"Keeper\" has two coils and no channel sends it back. Add a "
                "valve channel for its second coil."});
    show.rig.channels[0].coil = Coil::back;
    CHECK(
        texts(show, "wiring") ==
        Lines{"stop: No channel sends \"Keeper\" out. Add a valve channel for the coil that sends it out."});
}

TEST_CASE("channels and actuators that do not find each other") {
    Show show = clean_show();
    show.rig.channels[0].actuator.reset();
    CHECK(
        texts(show, "wiring") ==
        Lines{
            "warn: No channel switches the valve of \"Keeper\". Choose \"Keeper\" as the actuator of a valve "
            "channel.",
            "warn: Valve channel \"lunge\" moves no actuator. Choose the actuator whose valve it switches."});
}

TEST_CASE("two channels on one coil, and a second coil that is not there") {
    Show show = clean_show();
    Channel twin = show.rig.channels[0];
    twin.id = {22};
    twin.name = "twin";
    twin.output = 3;
    show.rig.channels.push_back(twin);
    CHECK(texts(show, "wiring") ==
          Lines{"warn: Channels \"lunge\" and \"twin\" switch the same coil of \"Keeper\". Leave the "
                "coil to one of them."});
    show.rig.channels.back().coil = Coil::back;
    CHECK(texts(show, "wiring") == Lines{"warn: Channel \"twin\" is to send \"Keeper\" back, but its valve "
                                         "has one coil. Choose a valve with two coils, "
                                         "or take the channel away."});
}
