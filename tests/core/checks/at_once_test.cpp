// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <string_view>

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// The valve in one sequence and the lamp in another, each with a trigger of its own, on one feed and one
/// return.
Show two_sequences() {
    Show show = clean_show();
    show.sequences.push_back(show.sequences[0]);
    Sequence& second = show.sequences.back();
    second.id = {99};
    second.name = "second";
    second.cues = {cue(50, lamp, 1s, 1s)};
    std::erase_if(show.sequences[0].cues, [](const Cue& one) { return one.channel == lamp; });
    Supply& supply = show.rig.supplies[0];
    supply.use_percent = 100.0;
    supply.feed_mm2 = 2.5;
    supply.feed_length_m = 2.0;
    supply.return_mm2 = 2.5;
    supply.return_length_m = 2.0;
    for (Channel& channel : show.rig.channels) {
        channel.circuit.return_path = ReturnPath::shared_return;
    }
    return show;
}

Lines together(const Show& show, std::string_view check_name) {
    Lines lines;
    for (const Finding& finding : check(show)) {
        if (finding.check == check_name && finding.what.find("at once") != std::string::npos) {
            lines.push_back(text(finding));
        }
    }
    return lines;
}

}  // namespace

TEST_CASE("a supply large enough for each of two sequences, but not for both at once") {
    Show show = two_sequences();
    CHECK(together(show, "supply").empty());
    show.rig.supplies[0].rated_a = 8.5;  // 0.3 always, 8 the lamp as it starts, 0.4 the valve
    CHECK(together(show, "supply") ==
          Lines{"warn: Supply \"12 V\" gives more than its rating while loads start when \"scare\" and "
                "\"second\" run at once: 8.7 A, limit at most 8.5 A. Take a supply of at least 9 A, or let "
                "one trigger play them in turn."});
    show.rig.supplies[0].rated_a = 1.5;
    CHECK(together(show, "supply") ==
          Lines{"stop: Supply \"12 V\" gives more than its rating when \"scare\" and \"second\" run at once: "
                "1.7 A, limit at most 1.5 A. Take a supply of at least 2 A, or let one trigger play them in "
                "turn."});
    show.rig.sensor.sharing = TriggerSharing::in_turn;
    CHECK(together(show, "supply").empty());
}

TEST_CASE("a coil that pulls in alone, but not while another sequence lights a lamp on its return") {
    Show show = two_sequences();
    CHECK(together(show, "drop").empty());
    show.rig.supplies[0].return_length_m = 24.0;
    const Lines found = together(show, "drop");
    REQUIRE(found.size() == 1);
    CHECK(
        found[0].starts_with("stop: 0:02.000: The coil of \"lunge\" may not pull in: too little of 12 V "
                             "reaches it when \"scare\" and \"second\" run at once: "));
    CHECK(found[0].find("Make the shared return 4 mm2, or give the load a return of its own, or let one "
                        "trigger play them in turn.") != std::string::npos);
    show.rig.supplies[0].return_mm2 = 4.0;  // as the remedy says
    CHECK(together(show, "drop").empty());
    show.rig.supplies[0].return_length_m.reset();
    CHECK(together(show, "drop").empty());  // blank: not checked, which is said elsewhere
}

TEST_CASE("a supply's fuse that bears each of two sequences, but not both at once") {
    Show show = two_sequences();
    show.rig.channels[0].load_current_a = 2.0;
    show.rig.channels[0].circuit.fuse_a = 3.0;
    show.rig.channels[1].circuit.inrush_a = 1.0;
    show.rig.supplies[0].fuse_a = 3.0;  // 2.3 A and 1.3 A; 3.3 A is just 1.1 times
    CHECK(together(show, "fuse").empty());
    show.rig.supplies[0].fuse_a = 2.5;
    CHECK(together(show, "fuse") ==
          Lines{"warn: The fuse of supply \"12 V\" may blow at the loads that are on together when \"scare\" "
                "and \"second\" run at once: up to 3.3 A, limit what a blade fuse of 2.5 A surely bears. Fit "
                "a fuse of 3 A, or let one trigger play them in turn."});
    show.rig.supplies[0].fuse_a = 2.0;  // does not bear the valve alone
    CHECK(together(show, "fuse").empty());
    show.rig.supplies[0].fuse_a.reset();
    CHECK(together(show, "fuse").empty());
}

TEST_CASE("a shared wire that bears each of two sequences, but not both at once") {
    Show show = two_sequences();
    show.rig.supplies[0].return_mm2 = 0.25;  // between 24 and 22 AWG of the table
    show.rig.channels[0].load_current_a = 1.8;
    CHECK(together(show, "wire_current") ==
          Lines{"stop: The shared return of supply \"12 V\" carries more than it bears when \"scare\" and "
                "\"second\" run at once: 3.1 A, limit at most 2.38 A in 0.25 mm2. Make it 0.34 mm2, or let "
                "one trigger play them in turn."});
    show.rig.channels[0].load_current_a = 0.5;
    CHECK(together(show, "wire_current").empty());
    show.rig.channels[0].load_current_a = 4.0;  // too much alone, which is said of it alone
    CHECK(together(show, "wire_current").empty());
}
