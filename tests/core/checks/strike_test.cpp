// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

Show striking(Micros at) {
    Show show = clean_show();
    show.sequences[0].cues[0].strikes = true;
    show.sequences[0].cues[0].at = at;
    return show;
}

}  // namespace

TEST_CASE("a strike that cannot be met says the earliest moment, and that moment can be met") {
    CHECK(findings(striking(3s), "strike_missed").empty());
    const auto found = findings(striking(20ms), "strike_missed");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::stop);
    CHECK(found[0].place.cue == CueId{1001});
    CHECK(found[0].limit.rfind("no earlier than 0:00.", 0) == 0);
    const Micros earliest = parse_time(found[0].limit.substr(std::string("no earlier than ").size())).value();
    CHECK(findings(striking(earliest), "strike_missed").empty());
}

TEST_CASE("without a simulation and a stated time a strike is not checked") {
    Show show = striking(3s);
    show.rig.actuators[0].valve.supply_c_l_s_bar.reset();
    CHECK(findings(show, "strike_missed").empty());
    show.rig.actuators[0].motion.out_ms.reset();
    CHECK(findings(show, "strike_missed").at(0).not_checked);
}

TEST_CASE("a strike that may be off its moment by more than is noticed") {
    CHECK(findings(striking(3s), "strike_off").empty());
    Show show = striking(3s);
    show.rig.actuators[0].fit = {};
    show.rig.actuators[0].fit.conductance_spread_percent = 60.0;
    const auto found = findings(show, "strike_off");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::note);
    CHECK(found[0].figure.find("not measured") != std::string::npos);
    CHECK(found[0].remedy == "Time the real stroke and fit the model to it");
}

TEST_CASE("a strike placed with the receiver at cut-in comes early when it is full") {
    Show show = striking(3s);
    show.rig.air_plant.cut_in_kpa_gauge = 180.0;
    const auto found = findings(show, "strike_off");
    REQUIRE(found.size() == 1);
    CHECK(found[0].what == "\"Keeper\" may strike early with the receiver full");
}

TEST_CASE("a strike after the end of its sequence asks for a longer sequence, not for more air") {
    Show show = striking(3s);
    show.sequences[0].length = 2s;
    const auto found = findings(show, "strike_missed");
    REQUIRE(found.size() == 1);
    CHECK(found[0].limit == "before 0:02.000");
    CHECK(found[0].remedy == "Lengthen the sequence past 0:03.000, or move the strike into it");
}

TEST_CASE("a strike missed for a short cue asks for what the stroke asks for") {
    Show show = striking(3s);
    show.sequences[0].cues[0].length = 60ms;
    const auto found = findings(show, "strike_missed");
    REQUIRE(found.size() == 1);
    CHECK(found[0].remedy == findings(show, "stroke").at(0).remedy);
}
