// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("too little reaches a coil at the end of a long thin wire") {
    Show show = clean_show();
    CHECK(texts(show, "drop").empty());
    show.rig.channels[0].circuit.wire_mm2 = 0.14;
    show.rig.channels[0].circuit.wire_length_m = 20.0;
    CHECK(texts(show, "drop") ==
          Lines{"stop: 0:02.000: The coil of \"lunge\" may not pull in: too little of 12 V reaches it: 9.56 "
                "V, limit at least 10.2 V. Make its own wire 0.25 mm2."});
    show.rig.channels[0].circuit.wire_mm2 = 0.34;  // the remedy
    CHECK(texts(show, "drop").empty());
}

TEST_CASE("a shared return that a lamp loads takes from a coil that starts with it") {
    Show show = clean_show();
    show.rig.supplies[0].return_mm2 = 1.5;
    show.rig.supplies[0].return_length_m = 30.0;
    for (Channel& channel : show.rig.channels) {
        channel.circuit.return_path = ReturnPath::shared_return;
    }
    CHECK(texts(show, "drop").empty());  // the lamp's surge is over when the coil starts
    show.sequences[0].cues[0].at = 1s;
    CHECK(
        texts(show, "drop") ==
        Lines{"stop: 0:01.000: The coil of \"lunge\" may not pull in: too little of 12 V reaches it: 8.22 V, "
              "limit at least 10.2 V. Make the shared return 4 mm2, or give the load a return of its own."});
}

TEST_CASE("a load made for another voltage") {
    Show show = clean_show();
    show.rig.channels[1].circuit.volts = 24.0;
    CHECK(texts(show, "drop") ==
          Lines{"stop: The load of \"lamp\" is not made for the voltage of supply \"12 V\": 12 V, limit 24 V "
                "within 10 %. Put it on a supply of 24 V, or take a load for 12 V."});
    show.rig.channels[1].circuit.volts = 12.5;
    CHECK(texts(show, "drop").empty());
}

TEST_CASE("blank inputs of the drop") {
    Show show = clean_show();
    show.rig.supplies[0].volts.reset();
    show.rig.supplies[0].feed_mm2 = 1.0;
    show.rig.channels[0].circuit.least_percent.reset();
    show.rig.channels[0].circuit.wire_length_m.reset();
    show.rig.channels[1].circuit.return_path = ReturnPath::shared_return;
    CHECK(texts(show, "drop") ==
          Lines{"note: Not checked: no voltage of supply \"12 V\". Fill in the voltage of supply \"12 V\".",
                "note: Not checked: no least voltage at which the coil pulls in of \"lunge\". Fill in the "
                "least voltage at which the coil pulls in of \"lunge\".",
                "note: Not checked: no length of wire of \"lunge\". Fill in the length of wire of \"lunge\".",
                "note: Not checked: no size and length of the shared feed of supply \"12 V\". Fill in the "
                "size and length of the shared feed of supply \"12 V\".",
                "note: Not checked: no size and length of the shared return of supply \"12 V\". Fill in the "
                "size and length of the shared return of supply \"12 V\"."});
}
