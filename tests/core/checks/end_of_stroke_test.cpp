// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("a stop met faster, or with more energy, than it is rated for") {
    CHECK(findings(clean_show(), "end_of_stroke").empty());
    Show show = clean_show();
    show.rig.actuators[0].cylinder.rated_speed_m_s = 0.05;
    const auto fast = findings(show, "end_of_stroke");
    REQUIRE(!fast.empty());
    CHECK(fast[0].severity == Severity::stop);
    CHECK(fast[0].limit == "at most 0.05 m/s");
    show = clean_show();
    show.rig.actuators[0].cylinder.rated_energy_j = 0.01;
    CHECK(findings(show, "end_of_stroke").at(0).what.find("more energy") != std::string::npos);
}

TEST_CASE("without a rating the stop is not checked, once; one of both will do") {
    Show show = clean_show();
    show.rig.actuators[0].cylinder.rated_energy_j.reset();
    CHECK(findings(show, "end_of_stroke").empty());
    show.rig.actuators[0].cylinder.rated_speed_m_s.reset();
    CHECK(
        texts(show, "end_of_stroke") ==
        Lines{
            "note: Not checked: no rated speed or energy of \"Keeper\". Fill in the rated speed or energy of "
            "\"Keeper\"."});
}

TEST_CASE("the first stroke after air-on, which nothing brakes, against the same rating") {
    CHECK(findings(clean_show(), "first_stroke").empty());
    Show show = clean_show();
    AirMemo memo;
    const SequenceRun run = work_out(show, show.sequences[0], memo);
    const double first = memo.first(show, keeper)->stroke.end_speed_m_s;
    const double normal = run.air.run->strokes[0].end_speed_m_s;
    CHECK(first > 1.2 * normal);
    show.rig.actuators[0].cylinder.rated_speed_m_s = (first + normal) / 2;
    CHECK(findings(show, "end_of_stroke").empty());
    const auto found = findings(show, "first_stroke");
    REQUIRE(found.size() == 1);
    CHECK(found[0].severity == Severity::warn);
    show.rig.actuators[0].cylinder.rated_speed_m_s.reset();
    show.rig.actuators[0].cylinder.rated_energy_j.reset();
    CHECK(findings(show, "first_stroke").at(0).not_checked);
}
