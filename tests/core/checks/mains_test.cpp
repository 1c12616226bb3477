// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("mains is work for a licensed electrician, low voltage is not") {
    Show show = clean_show();
    CHECK(texts(show, "mains").empty());
    show.rig.supplies[0].kind = SupplyKind::mains;
    show.rig.supplies[0].volts = 230.0;
    CHECK(texts(show, "mains") ==
          Lines{"warn: Supply \"12 V\" is dangerous to touch: wiring it and \"lunge\" and \"lamp\" is work "
                "for a licensed "
                "electrician, by the local code: 230 V, limit up to 60 V DC or 30 V AC without one. Have it "
                "done or checked by one, or take loads for low voltage."});
    show.rig.supplies[0].volts.reset();
    CHECK(texts(show, "mains") ==
          Lines{"warn: Supply \"12 V\" is dangerous to touch: wiring it and \"lunge\" and \"lamp\" "
                "is work for a licensed electrician, by the local code. Have it done "
                "or checked by one, or take loads for low voltage."});
}

TEST_CASE("more than 30 V AC or 60 V DC is flagged, too") {
    Show show = clean_show();
    show.rig.supplies[0].volts = 48.0;
    CHECK(texts(show, "mains").empty());
    show.rig.supplies[0].kind = SupplyKind::transformer;
    CHECK(texts(show, "mains").size() == 1);
    show.rig.supplies[0].kind = SupplyKind::adapter;
    show.rig.supplies[0].volts = 61.0;
    CHECK(texts(show, "mains").size() == 1);
}
