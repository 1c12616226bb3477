// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a coil rated for short duty is held too long") {
    Show show = clean_show();
    show.rig.channels[0].circuit.duty_percent.reset();
    show.rig.channels[0].circuit.longest_on_s = 1.0;
    CHECK(texts(show, "coil_duty").empty());
    show.sequences[0].cues[0].length = 1500ms;
    CHECK(texts(show, "coil_duty") ==
          Lines{"stop: 0:02.000: The coil of \"lunge\" is held longer than it bears: 1.5 s, limit at most 1 "
                "s. Shorten what holds it by 500 ms, or take a coil rated for continuous duty."});
}

TEST_CASE("a coil is held too large a share of the time") {
    Show show = clean_show();
    show.rig.channels[0].circuit.duty_percent = 25.0;
    CHECK(texts(show, "coil_duty").empty());  // 1 s in 12
    show.rig.channels[0].circuit.duty_percent = 5.0;
    CHECK(texts(show, "coil_duty") ==
          Lines{"stop: The coil of \"lunge\" is held too large a share of the time with \"scare\" every 12 "
                "s: 8.3 %, limit at most 5 %. Let it run no more often than every 20 s, or take a coil rated "
                "for continuous duty."});
    show.rig.sensor.lockout_s = 20.0;  // the remedy
    CHECK(texts(show, "coil_duty").empty());
    show.rig.channels[0].contact = Contact::normally_closed;
    CHECK(texts(show, "coil_duty") ==
          Lines{"stop: The coil of \"lunge\" is held too large a share of the time with \"scare\" every 20 "
                "s: 95 %, limit at most 5 %. Take a coil rated for continuous duty."});
}

TEST_CASE("a coil whose duty is blank") {
    Show show = clean_show();
    show.rig.channels[0].circuit.duty_percent.reset();
    CHECK(texts(show, "coil_duty") == Lines{"note: Not checked: no duty of the coil of \"lunge\". Fill in "
                                            "the duty of the coil of \"lunge\"."});
}
