// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>
#include <string_view>

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a supply over its rating at the worst moment, over the share to plan with, and over neither") {
    Show show = clean_show();
    CHECK(texts(show, "supply").empty());
    show.rig.supplies[0].rated_a = 1.5;
    CHECK(texts(show, "supply") ==
          Lines{"stop: 0:02.000: Supply \"12 V\" gives more than its rating: 1.7 A, limit at most 1.5 A. "
                "Take a supply of at least 3 A, or let fewer loads be on at once."});
    show.rig.supplies[0].rated_a = 2.0;
    CHECK(texts(show, "supply") ==
          Lines{"warn: 0:02.000: Supply \"12 V\" gives more than the share of its rating to plan with: 1.7 "
                "A, limit at most 1.6 A. Take a supply of at least 3 A, or let fewer loads be on at once."});
}

TEST_CASE("a lamp that starts draws more than the supply may give") {
    Show show = clean_show();
    show.rig.supplies[0].rated_a = 8.0;
    CHECK(
        texts(show, "supply") ==
        Lines{"warn: 0:01.000: Supply \"12 V\" gives more than its rating while a load starts: 8.3 A, limit "
              "at most 8 A. Let loads start apart from each other, or take a supply of at least 9 A."});
}

TEST_CASE("a supply that heats over the night") {
    Show show = clean_show();
    show.rig.supplies[0].use_percent = 100.0;
    show.rig.supplies[0].rated_a = 8.5;
    show.rig.channels[1].load_current_a = 7.5;
    show.rig.channels[1].contact = Contact::normally_closed;  // on at rest
    show.rig.channels[1].circuit.inrush_a = 7.5;
    show.rig.supplies[0].rated_a = 8.0;
    show.rig.supplies[0].use_percent = 99.0;
    CHECK(texts(show, "supply").empty());
    show.rig.supplies[0].use_percent = 80.0;
    CHECK(findings(show, "supply").size() == 1);
}

TEST_CASE("a battery that does not last the night") {
    Show show = clean_show();
    show.rig.supplies[0].kind = SupplyKind::battery;
    CHECK(
        texts(show, "supply") ==
        Lines{"note: Not checked: no capacity of supply \"12 V\". Fill in the capacity of supply \"12 V\"."});
    show.rig.supplies[0].capacity_ah = 2.0;
    CHECK(texts(show, "supply") ==
          Lines{"note: Not checked: no hours of the night. Fill in the hours of the night."});
    show.night.hours = 5.0;
    CHECK(texts(show, "supply") ==
          Lines{"warn: Battery \"12 V\" may not last the night with \"scare\" again and again: 3 Ah, limit "
                "at most 1.6 Ah. Take one of at least 4 Ah, or change it during the night."});
    show.rig.supplies[0].capacity_ah = 7.0;
    CHECK(texts(show, "supply").empty());
}

TEST_CASE("what is blank of a supply and its circuits is said once for all of them") {
    Show show = clean_show();
    show.rig.supplies[0].rated_a.reset();
    show.rig.supplies[0].standing_a.reset();
    for (Channel& channel : show.rig.channels) {
        channel.load_current_a.reset();
    }
    show.rig.channels[1].circuit.inrush_a.reset();
    CHECK(texts(show, "supply") ==
          Lines{"note: Not checked: no load current of \"lunge\" and \"lamp\". Fill in the load current of "
                "\"lunge\" and \"lamp\".",
                "note: Not checked: no inrush current of \"lamp\". Fill in the inrush current of \"lamp\".",
                "note: Not checked: no rating of supply \"12 V\". Fill in the rating of supply \"12 V\".",
                "note: Not checked: no current drawn always of supply \"12 V\". Fill in the current drawn "
                "always of supply \"12 V\"."});
    show.rig.channels[1].circuit.load = LoadKind::not_stated;
    show.rig.channels[0].circuit.supply.reset();
    CHECK(texts(show, "supply") ==
          Lines{"note: Not checked: no supply of \"lunge\". Fill in the supply of \"lunge\".",
                "note: Not checked: no load current of \"lamp\". Fill in the load current of \"lamp\".",
                "note: Not checked: no kind of load of \"lamp\". Fill in the kind of load of \"lamp\".",
                "note: Not checked: no rating of supply \"12 V\". Fill in the rating of supply \"12 V\".",
                "note: Not checked: no current drawn always of supply \"12 V\". Fill in the current drawn "
                "always of supply \"12 V\"."});
}

TEST_CASE("a rig without supplies is one note, whatever it has else") {
    Show show = clean_show();
    show.rig.supplies.clear();
    for (Channel& channel : show.rig.channels) {
        channel.circuit = {};
    }
    CHECK(texts(show, "supply") == Lines{"note: Not checked: no power supply, so no currents, wires and "
                                         "fuses. Add the supplies that feed the channels."});
    constexpr std::array<std::string_view, 10> of_power{
        "supply",       "supply_loop", "joined_supplies", "mains",       "drop",
        "wire_current", "fuse",        "contact_rating",  "suppression", "coil_duty"};
    std::vector<Finding> power;
    for (const Finding& finding : findings(show)) {
        if (std::ranges::find(of_power, finding.check) != of_power.end()) {
            power.push_back(finding);
        }
    }
    CHECK(power.size() == 1);
    show.sequences[0].cues.clear();
    CHECK(texts(show, "supply").empty());
}
