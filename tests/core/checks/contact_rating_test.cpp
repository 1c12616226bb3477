// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a contact that switches more of this kind of load than it is rated for") {
    Show show = clean_show();
    CHECK(texts(show, "contact_rating").empty());
    show.rig.channels[1].circuit.switch_a = 0.5;
    CHECK(texts(show, "contact_rating") ==
          Lines{"stop: The contact of \"lamp\" switches more than it is rated for with this kind of load: 1 "
                "A, limit at most 0.5 A of lamps. Take one rated for 1 A of lamps, which a rating of 10 A "
                "resistive is."});
    show.rig.channels[1].circuit.switched_by = SwitchedBy::transistor;
    show.rig.channels[0].circuit.switch_a = 0.2;
    CHECK(texts(show, "contact_rating") ==
          Lines{"stop: The contact of \"lunge\" switches more than it is rated for with this kind of load: "
                "0.4 A, limit at most 0.2 A of coils. Take one rated for 0.4 A of coils, which a rating of 1 "
                "A resistive is.",
                "stop: The transistor of \"lamp\" switches more than it is rated for with this kind of load: "
                "1 A, limit at most 0.5 A of lamps. Take one rated for 1 A of lamps, which a rating of 10 A "
                "resistive is."});
}

TEST_CASE("a contact above its voltage") {
    Show show = clean_show();
    show.rig.supplies[0].volts = 24.0;
    show.rig.channels[0].circuit.switch_volts = 15.0;
    CHECK(texts(show, "contact_rating") ==
          Lines{"stop: The contact of \"lunge\" switches a higher voltage than it is rated for: 24 V, limit "
                "at most 15 V. Take one rated for 24 V."});
}

TEST_CASE("blank ratings of contacts; the voltage counts above what every relay bears") {
    Show show = clean_show();
    for (Channel& channel : show.rig.channels) {
        channel.circuit.switch_a.reset();
    }
    show.rig.supplies[0].volts = 48.0;
    CHECK(texts(show, "contact_rating") ==
          Lines{"note: Not checked: no rating of the contact or transistor of \"lunge\" and \"lamp\". Fill "
                "in the rating of the contact or transistor of \"lunge\" and \"lamp\".",
                "note: Not checked: no voltage of the contact or transistor of \"lunge\" and \"lamp\". Fill "
                "in the voltage of the contact or transistor of \"lunge\" and \"lamp\"."});
}
