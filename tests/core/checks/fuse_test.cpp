// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/circuit_advice.hpp"
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a fuse larger than its wire bears") {
    Show show = clean_show();
    CHECK(texts(show, "fuse").empty());
    show.rig.channels[0].circuit.fuse_a = 10.0;
    CHECK(texts(show, "fuse") == Lines{"stop: The fuse of \"lunge\" is larger than its wire bears: 10 A, "
                                       "limit at most 6.54 A in 0.75 mm2. Fit a fuse of 1 A."});
}

TEST_CASE("a fuse too small for its load, and one that the inrush blows") {
    Show show = clean_show();
    show.rig.channels[1].circuit.fuse_a = 1.0;
    CHECK(texts(show, "fuse") ==
          Lines{"warn: The fuse of \"lamp\" is too small for what flows for long: 1 A, limit at least 1.25 "
                "A, 1.25 times the current. Fit a fuse of 3 A."});
    show.rig.channels[1].circuit.fuse_a = 2.0;
    CHECK(texts(show, "fuse") == Lines{"warn: The fuse of \"lamp\" may blow at the inrush: 8 A for 30 ms, "
                                       "limit what a blade fuse of 2 A surely bears. Fit a fuse of 3 A."});
}

TEST_CASE("a wire without a fuse of its own is guarded by its supply's, or by none") {
    Show show = clean_show();
    show.rig.channels[0].circuit.fuse_a.reset();
    CHECK(texts(show, "fuse").empty());  // 5 A in 0.75 mm2
    show.rig.supplies[0].fuse_a = 10.0;
    CHECK(
        texts(show, "fuse") ==
        Lines{
            "stop: The fuse of supply \"12 V\" is larger than the wire of \"lunge\" bears, which has none of "
            "its own: 10 A, limit at most 6.54 A in 0.75 mm2. Fit a fuse of 1 A where it leaves the feed."});
    show.rig.supplies[0].fuse_a.reset();
    CHECK(texts(show, "fuse") ==
          Lines{"note: Not checked: no fuse of \"lunge\". Fill in the fuse of \"lunge\"."});
}

TEST_CASE("the fuse of a supply guards the wires that all share") {
    Show show = clean_show();
    show.rig.supplies[0].feed_mm2 = 0.5;
    show.rig.supplies[0].feed_length_m = 1.0;
    CHECK(texts(show, "fuse") == Lines{"stop: The fuse of supply \"12 V\" is larger than its feed bears: 5 "
                                       "A, limit at most 4.81 A in 0.5 mm2. Fit a fuse of 3 A."});
    show.rig.supplies[0].feed_mm2 = 2.5;
    show.rig.supplies[0].fuse_a = 1.0;
    CHECK(texts(show, "fuse") ==
          Lines{"warn: The fuse of supply \"12 V\" is too small for what flows for long: 1 A, limit at least "
                "1.09 A, 1.25 times the current. Fit a fuse of 3 A."});
}

TEST_CASE("a supply's fuse that loads together open, though none of them does and the heat is little") {
    Show show = clean_show();
    show.rig.supplies[0].fuse_a = 1.0;
    show.rig.supplies[0].standing_a = 0.0;
    show.rig.channels[1].circuit.inrush_a = 1.0;
    const Lines found = texts(show, "fuse");
    REQUIRE(found.size() == 1);
    CHECK(
        found[0].starts_with("warn: The fuse of supply \"12 V\" may blow at the loads that are on together: "
                             "up to 1.4 A, above 1.1 A for "));
    CHECK(found[0].ends_with("limit what a blade fuse of 1 A surely bears. Fit a fuse of 2 A."));
}

TEST_CASE("an inrush of no known length makes no fuse fit") {
    Show show = clean_show();
    Circuit& light = show.rig.channels[1].circuit;
    light.inrush_ms.reset();
    light.fuse_a = 1.5;  // 8 A would blow it at once if it lasted
    CHECK(texts(show, "fuse").empty());
    light.fuse_a = 10.0;
    CHECK(
        texts(show, "fuse") ==
        Lines{"stop: The fuse of \"lamp\" is larger than its wire bears: 10 A, limit at most 6.54 A in 0.75 "
              "mm2. Fit a fuse of no more than 5 A."});
    CHECK_FALSE(
        advise(show.rig, 1, sequence_power(show, resolve(show, show.sequences[0])), UnitSystem::metric)
            .fuse_a);
    light.inrush_ms = 30.0;
    CHECK(advise(show.rig, 1, sequence_power(show, resolve(show, show.sequences[0])), UnitSystem::metric)
              .fuse_a == 3.0);
}

TEST_CASE("fuse and wire of mains are left to a licensed electrician") {
    Show show = clean_show();
    show.rig.supplies[0].kind = SupplyKind::mains;
    show.rig.supplies[0].fuse_a.reset();
    show.rig.channels[1].circuit.fuse_a = 10.0;
    const Lines found = texts(show, "fuse");
    REQUIRE(found.size() == 1);
    CHECK(found[0].ends_with("Have a licensed electrician choose the wire and its fuse."));
    const auto advice =
        advise(show.rig, 1, sequence_power(show, resolve(show, show.sequences[0])), UnitSystem::metric);
    CHECK(advice.licensed);
    CHECK_FALSE(advice.fuse_a);
    CHECK_FALSE(advice.wire_mm2);
    CHECK(advice.left_v);
}

TEST_CASE("no fuse is advised for a supply that its thinnest shared wire does not bear") {
    Show show = clean_show();
    Supply& supply = show.rig.supplies[0];
    supply.feed_mm2 = 4.0;
    supply.feed_length_m = 1.0;
    supply.return_mm2 = 0.5;
    supply.return_length_m = 1.0;
    show.rig.channels[1].circuit.return_path = ReturnPath::shared_return;
    supply.fuse_a = 15.0;
    CHECK(texts(show, "fuse") == Lines{"stop: The fuse of supply \"12 V\" is larger than its shared return "
                                       "bears: 15 A, limit at most 4.81 A in 0.5 mm2. Fit a fuse of 3 A."});
}
