// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a wire that carries more than it bears") {
    Show show = clean_show();
    CHECK(texts(show, "wire_current").empty());
    show.rig.channels[1].circuit.wire_mm2 = 0.1;
    CHECK(texts(show, "wire_current") == Lines{"stop: The wire of \"lamp\" carries more than it bears: 1 A, "
                                               "limit at most 0.885 A in 0.1 mm2. Make it 0.14 mm2."});
    show.rig.channels[1].circuit.wire_mm2.reset();
    CHECK(texts(show, "wire_current") ==
          Lines{"note: Not checked: no wire size of \"lamp\". Fill in the wire size of \"lamp\"."});
}

TEST_CASE("shared wires carry what all their loads draw at once") {
    Show show = clean_show();
    show.rig.supplies[0].standing_a = 0.05;
    show.rig.supplies[0].feed_mm2 = 0.14;
    show.rig.supplies[0].feed_length_m = 0.1;
    show.rig.supplies[0].return_mm2 = 0.14;
    show.rig.supplies[0].return_length_m = 0.1;
    CHECK(texts(show, "wire_current") ==
          Lines{"stop: The feed of supply \"12 V\" carries more than it bears: 1.45 A, limit at most 1.13 A "
                "in 0.14 mm2. Make it 0.25 mm2."});
    for (Channel& channel : show.rig.channels) {
        channel.circuit.return_path = ReturnPath::shared_return;
    }
    CHECK(
        texts(show, "wire_current") ==
        Lines{"stop: The feed of supply \"12 V\" carries more than it bears: 1.45 A, limit at most 1.13 A "
              "in 0.14 mm2. Make it 0.25 mm2.",
              "stop: The shared return of supply \"12 V\" carries more than it bears: 1.45 A, limit at most "
              "1.13 A in 0.14 mm2. Make it 0.25 mm2."});
    show.sequences[0].cues[0].at = 6s;  // no longer at once
    CHECK(texts(show, "wire_current").empty());
}
