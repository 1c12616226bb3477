// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a valve on a normally closed contact has power at rest") {
    Show show = clean_show();
    show.rig.channels[0].contact = Contact::normally_closed;
    CHECK(texts(show, "rest_state") ==
          Lines{"stop: Channel \"lunge\" gives its valve power while the show rests, so the figure stands "
                "out and moves when "
                "the power goes: contact NC, limit NO on a valve. Wire the valve to the NO contact."});
    CHECK(findings(show, "rest_state")[0].place.field == "contact");
    show.rig.channels[0].coil = Coil::back;
    CHECK(findings(show, "rest_state")[0].severity == Severity::warn);
    show.rig.channels[0].contact = Contact::normally_open;
    show.rig.channels[1].contact = Contact::normally_closed;  // a lamp may be lit at rest
    CHECK(texts(show, "rest_state").empty());
}
