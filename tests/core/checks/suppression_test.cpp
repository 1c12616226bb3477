// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a coil needs suppression, and not a diode on AC") {
    Show show = clean_show();
    CHECK(texts(show, "suppression").empty());
    show.rig.channels[0].circuit.suppression = Suppression::none;
    CHECK(texts(show, "suppression") ==
          Lines{"warn: The coil of \"lunge\" has nothing across it: each time it is switched off it burns "
                "what switches it, and may reset the board. Fit a diode at the coil, its ring to plus."});
    show.rig.supplies[0].kind = SupplyKind::transformer;
    CHECK(texts(show, "suppression") ==
          Lines{"warn: The coil of \"lunge\" has nothing across it: each time it is switched off it burns "
                "what switches it, and may reset the board. Fit a varistor, or a resistor and capacitor, at "
                "the coil."});
    show.rig.channels[0].circuit.suppression = Suppression::diode;
    CHECK(texts(show, "suppression") ==
          Lines{"stop: The coil of \"lunge\" has a diode across it and is fed with AC: that is a short "
                "circuit. Fit a varistor, or a resistor and capacitor, in its place."});
    show.rig.channels[0].circuit.suppression = Suppression::varistor;
    CHECK(texts(show, "suppression").empty());
    show.rig.channels[0].circuit.suppression = Suppression::not_stated;
    CHECK(texts(show, "suppression") ==
          Lines{"note: Not checked: no suppression across the coil of \"lunge\". Fill in the suppression "
                "across the coil of \"lunge\"."});
}
