// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/flash_count.hpp"
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

Show flashing(double rate_hz, double duty_percent = 50.0) {
    Show show = clean_show();
    show.sequences[0].cues[1].flashes = Flashes{rate_hz, duty_percent};
    return show;
}

/// The same with a second lamp, lit for as long.
Show flashing_with_second(double rate_hz, const Flashes& of_second) {
    Show show = flashing(rate_hz);
    Channel second = show.rig.channels[1];
    second.id = {22};
    second.name = "second";
    second.output = 3;
    show.rig.channels.push_back(second);
    Cue other = show.sequences[0].cues[1];
    other.id = {1003};
    other.channel = {22};
    other.flashes = of_second;
    show.sequences[0].cues.push_back(other);
    return show;
}

}  // namespace

TEST_CASE("a lamp at 3 Hz passes, one at 4 Hz does not") {
    CHECK(texts(clean_show(), "flashes").empty());
    CHECK(texts(flashing(3.0), "flashes").empty());
    CHECK(texts(flashing(4.0), "flashes") ==
          Lines{"warn: 0:01.000: Lamp \"lamp\" flashes faster than is borne by people whom flashing light "
                "harms: 4 flashes in a second, until 0:03.875, limit at most 3 in any one second. Let it "
                "flash at 3 Hz or less, or put up the notice of flashing light at the entrance."});
    CHECK(findings(flashing(4.0), "flashes")[0].place.cue == CueId{1002});
}

TEST_CASE("two lamps, each within the limit, are not together") {
    Show show = flashing_with_second(2.0, {2.0, 50.0});
    CHECK(texts(show, "flashes").empty());  // as one
    show.sequences[0].cues[2].at += 3ms;    // seen as one
    CHECK(texts(show, "flashes").empty());
    show.sequences[0].cues[2].at += 100ms;
    CHECK(texts(show, "flashes") ==
          Lines{"warn: 0:01.000: Lamps \"lamp\" and \"second\" together flash faster than is borne by people "
                "whom flashing light harms: 4 flashes in a second, until 0:03.853, limit at most 3 in any "
                "one second. Let them flash at the same moments, or apart from each other; lamps never seen "
                "together do not add up."});
}

TEST_CASE("of lamps that flash too fast together, the one that does so alone is named") {
    Show show = flashing_with_second(8.0, {1.0, 30.0});
    const auto found = findings(show, "flashes");
    REQUIRE(found.size() == 1);
    CHECK(found[0].what.find("\"second\"") != std::string::npos);
    CHECK(found[0].remedy.rfind("Let \"lamp\" flash at 3 Hz or less", 0) == 0);
    show.sequences[0].cues[1].flashes->rate_hz = 3.0;
    show.sequences[0].cues[2].flashes->rate_hz = 3.0;
    show.sequences[0].cues[2].flashes->duty_percent = 50.0;
    CHECK(findings(show, "flashes").empty());
}

TEST_CASE("a lamp on a normally closed contact flashes dark") {
    Show show = flashing(4.0);
    show.rig.channels[1].contact = Contact::normally_closed;
    CHECK(texts(show, "flashes").size() == 1);
    show.rig.channels[1].kind = ChannelKind::motor;
    show.rig.channels[1].circuit.load = LoadKind::motor;
    CHECK(texts(show, "flashes").empty());
}

TEST_CASE("bursts apart are told apart, and a fast strobe of one lamp does not melt into one") {
    std::vector<LightChange> changes;
    for (const int begin : {0, 10}) {
        for (int i = 0; i < 40; ++i) {
            changes.push_back({Micros{begin * 1'000'000 + i * 2'000}, 7, i % 2 == 0});
        }
    }
    const auto bursts = flash_bursts(changes);
    REQUIRE(bursts.size() == 2);
    CHECK(bursts[0].flashes == 20);
    CHECK(bursts[1].begin == 10s);
    CHECK(bursts[1].lamps == std::vector<std::uint32_t>{7});
}

TEST_CASE("no lamps, no flashes") {
    CHECK(flash_bursts({}).empty());
}
