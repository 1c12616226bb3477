// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// The figure on a valve with two coils, the second on a channel of its own.
Show two_coils() {
    Show show = clean_show();
    show.rig.actuators[0].valve.kind = ValveKind::five_two_two_coils;
    Channel back = clean_channel({22}, "return", 3);
    back.kind = ChannelKind::valve;
    back.actuator = keeper;
    back.coil = Coil::back;
    show.rig.channels.push_back(back);
    show.sequences[0].cues.push_back(cue(1003, {22}, 4s, 200ms));
    return show;
}

}  // namespace

TEST_CASE("the two coils of a valve exclude each other") {
    Show show = two_coils();
    CHECK(texts(show, "exclusive").empty());
    show.sequences[0].cues.back().at = 2900ms;
    CHECK(texts(show, "exclusive") == Lines{"stop: 0:02.900: Channels \"lunge\" and \"return\" have power at "
                                            "once, and are the two coils of one valve: "
                                            "100 ms, limit never together. Start cue 1003 100 ms later."});
    const Finding finding = findings(show, "exclusive")[0];
    CHECK(finding.place.cue == CueId{1001});
    CHECK(finding.place.other_cue == CueId{1003});
    show.sequences[0].cues.back().at = 3000ms;
    CHECK(texts(show, "exclusive").empty());
}

TEST_CASE("channels that one of them excludes; each pair of stretches is one finding") {
    Show show = clean_show();
    show.rig.channels[1].excludes = {lunge};
    show.sequences[0].cues.push_back(cue(1003, lunge, 3500ms, 2s));
    const auto found = findings(show, "exclusive");
    REQUIRE(found.size() == 2);
    CHECK(found[0].place.time == 2s);
    CHECK(found[0].figure == "1 s");
    CHECK(found[1].place.time == 3500ms);
    CHECK(found[1].figure == "500 ms");
}

TEST_CASE("a coil that has power at rest meets the other one") {
    Show show = two_coils();
    show.rig.channels[2].contact = Contact::normally_closed;
    show.sequences[0].cues = {cue(1, lunge, 2s, 1s)};
    CHECK(
        texts(show, "exclusive") ==
        Lines{"stop: 0:02.000: Channels \"lunge\" and \"return\" have power at once, and are the two coils "
              "of one valve: "
              "1 s, limit never together. Wire both to the NO contact, so that neither has power at rest."});
    show.sequences[0].cues.push_back(cue(2, {22}, 1900ms, 1200ms));  // its power is taken away meanwhile
    CHECK(texts(show, "exclusive").empty());
    show.rig.channels[0].contact = Contact::normally_closed;  // now both have power from the start
    CHECK(findings(show, "exclusive")[0].place.time == 0s);
}
