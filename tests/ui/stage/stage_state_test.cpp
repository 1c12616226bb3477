// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/stage_state.hpp"

#include "tests/support/catch.hpp"
#include "tests/ui/stage/rig_for_tests.hpp"

using namespace gasp;
using namespace std::chrono_literals;

namespace {

StagePlan plan_of(const Show& show) {
    AirMemo memo;
    const SequenceRun run = work_out(show, show.sequences.front(), memo);
    return {show, run.schedule, dwells_by_channel(run.schedule), run.commands, run.air};
}

}  // namespace

TEST_CASE("the stage shows contacts, lamps and valves as the schedule has them", "[stage_state]") {
    const StagePlan plan = plan_of(rig_for_tests());
    const StageState before = plan.at(500ms);
    REQUIRE(before.channels.size() == 3);
    CHECK_FALSE(before.channels[0].load_on);
    CHECK_FALSE(before.channels[1].load_on);
    CHECK(before.channels[2].load_on);  // normally closed, at rest
    REQUIRE(before.actuators.size() == 1);
    CHECK_FALSE(before.actuators[0].sent_out);
    CHECK(before.actuators[0].share == 0.0);

    const StageState during = plan.at(1110ms);
    CHECK(during.channels[0].load_on);
    CHECK(during.channels[1].load_on);
    CHECK(during.channels[1].glow == 1.0);
    CHECK_FALSE(during.channels[2].load_on);
    CHECK(during.actuators[0].sent_out);
    CHECK(during.actuators[0].coil_out_on);
    CHECK(during.actuators[0].share == Approx(0.5));

    const StageState after = plan.at(2010ms);
    CHECK_FALSE(after.channels[1].load_on);
    CHECK(after.channels[1].glow > 0.5);  // dying away, so that short flashes are seen
    CHECK(plan.at(2500ms).channels[1].glow < 0.01);
    CHECK_FALSE(after.actuators[0].sent_out);
    CHECK(after.actuators[0].share == 1.0);
    CHECK(plan.at(2220ms).actuators[0].share == Approx(0.5));
}

TEST_CASE("without stroke times the figure jumps, marked for a moment", "[stage_state]") {
    Show show = rig_for_tests();
    show.rig.actuators[0].motion.out_ms.reset();
    const StagePlan plan = plan_of(show);
    CHECK_FALSE(plan.at(500ms).actuators[0].stated);
    CHECK(plan.at(999ms).actuators[0].share == 0.0);
    const StageActuator landed = plan.at(1000ms).actuators[0];
    CHECK(landed.share == 1.0);
    CHECK(landed.jumped);
    CHECK_FALSE(plan.at(1900ms).actuators[0].jumped);
    CHECK_FALSE(plan.at(2010ms).actuators[0].jumped);  // its way back has a time
}

TEST_CASE("the gauge follows the air budget's curve, or names what is blank", "[stage_state]") {
    Show show = rig_for_tests();
    const StagePlan plan = plan_of(show);
    const Figure early = plan.at(0ms).receiver_kpa_gauge;
    const Figure late = plan.at(2900ms).receiver_kpa_gauge;
    REQUIRE(early.has_value());
    REQUIRE(late.has_value());
    CHECK(*early == Approx(600.0));  // a run begins at cut-in
    AirMemo memo;
    const AirRun air = *work_out(show, show.sequences[0], memo).air.run;
    CHECK(plan.at(air.lowest_at).receiver_kpa_gauge.value_or(0.0) == Approx(air.lowest_receiver_kpa));

    show.rig.air_plant.receiver_l.reset();
    const StagePlan blank = plan_of(show);
    CHECK_FALSE(blank.at(0ms).receiver_kpa_gauge);
    REQUIRE_FALSE(blank.missing_air().empty());
    CHECK(blank.missing_air().front().find("receiver") != std::string::npos);
}

TEST_CASE("an empty rig is an empty plan", "[stage_state]") {
    CHECK(StagePlan().empty());
    CHECK(plan_of(empty_show()).empty());
    CHECK(StagePlan().at(1s).channels.empty());
}
