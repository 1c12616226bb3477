// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/strike_placing.hpp"

#include "core/schedule/sequence_run.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <chrono>
#include <map>
#include <vector>

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

constexpr ChannelId lunge{20};
constexpr ChannelId slam{21};

Channel valve(ChannelId id, ActuatorId actuator) {
    Channel channel;
    channel.id = id;
    channel.name = id == lunge ? "lunge" : "slam";
    channel.kind = ChannelKind::valve;
    channel.actuator = actuator;
    return channel;
}

Cue striking(std::uint32_t id, ChannelId channel, Micros at, Micros length = 1500ms) {
    Cue cue;
    cue.id = {id};
    cue.channel = channel;
    cue.at = at;
    cue.length = length;
    cue.strikes = true;
    return cue;
}

Show show_with(std::vector<Cue> cues) {
    Show show = rig_of_two();
    show.rig.channels = {valve(lunge, keeper), valve(slam, hatch)};
    show.sequences[0].length = 60s;
    show.sequences[0].cues = std::move(cues);
    return show;
}

/// Every stroke out strikes 200 ms after its command, and 5 ms later for each other one out before it.
std::optional<AirRun> made_up(std::span<const StrokeCommand> commands, Micros) {
    AirRun run;
    std::map<ActuatorId, ActuatorRun> runs;
    int before = 0;
    for (const StrokeCommand& command : commands) {
        Stroke stroke;
        stroke.command = command;
        stroke.shifted = true;
        stroke.end = StrokeEnd::arrives;
        const bool out = command.way == Coil::out;
        const double strike = out ? 0.2 + 0.005 * before++ : 0.5;
        stroke.reached_s = {strike / 2, strike * 0.9, strike, strike + 0.01};
        run.strokes.push_back(stroke);
        MotionCurve& motion = runs[command.actuator].motion;
        const double at = to_s(command.time);
        const double share = motion.share_at(at);
        if (!motion.points.empty() && motion.points.back().time_s > at) {
            motion.points.pop_back();
        }
        motion.points.push_back({at, share, 0.0});
        motion.points.push_back({at + strike + 0.01, out ? 1.0 : 0.0, 0.0});
        runs[command.actuator].actuator = command.actuator;
    }
    for (const auto& [id, each] : runs) {
        run.actuators.push_back(each);
    }
    return run;
}

std::vector<PlacedStrike> placed_by_made_up(const Show& show) {
    return place_strikes(show, show.sequences[0], made_up);
}

}  // namespace

TEST_CASE("a start lies its lead before the strike, whatever the other strokes do to that lead") {
    const Show show = show_with({striking(1, lunge, 5s), striking(2, slam, 10s), striking(3, lunge, 20s)});
    const auto strikes = placed_by_made_up(show);
    REQUIRE(strikes.size() == 3);
    CHECK(strikes[0].start == 5s - 200ms);
    CHECK(strikes[1].start == 10s - 205ms);
    CHECK(strikes[2].start == 20s - 210ms);
    for (const PlacedStrike& strike : strikes) {
        CHECK(strike.fault == StrikeFault::none);
        CHECK(strike.start + *strike.lead == strike.wanted);
    }
    const Sequence sequence = placed(show.sequences[0], strikes);
    CHECK(start_of(sequence, sequence.cues[1]) == 10s - 205ms);
    CHECK_FALSE(has_strikes(sequence));
    CHECK(has_strikes(show.sequences[0]));
}

TEST_CASE("a tie to a mark is kept") {
    Show show = show_with({striking(1, lunge, 0s)});
    show.sequences[0].marks.push_back({{9}, "bang", 7s, {}});
    show.sequences[0].cues[0].mark = MarkId{9};
    const Sequence sequence = placed(show.sequences[0], placed_by_made_up(show));
    CHECK(sequence.cues[0].mark == MarkId{9});
    CHECK(sequence.cues[0].at == -200ms);
}

TEST_CASE("a strike before the valve can be there is placed as early as can be, and says when") {
    const auto strikes = placed_by_made_up(show_with({striking(1, lunge, 120ms)}));
    CHECK(strikes[0].fault == StrikeFault::before_start);
    CHECK(strikes[0].start == 0s);
    CHECK(strikes[0].earliest == 200ms);
}

TEST_CASE("a figure that is still on its way back cannot strike; it could once it is back") {
    // Out at 4.8 s for 1.5 s, sent back at 6.3 s, back at 6.81 s.
    const auto strikes = placed_by_made_up(show_with({striking(1, lunge, 5s), striking(2, lunge, 6700ms)}));
    CHECK(strikes[0].fault == StrikeFault::none);
    CHECK(strikes[1].fault == StrikeFault::still_returning);
    CHECK(strikes[1].earliest == 6810ms + 200ms);
}

TEST_CASE("without a simulation the stated time is taken, without either nothing is known") {
    Show show = show_with({striking(1, lunge, 5s)});
    const AirPlayer none = [](std::span<const StrokeCommand>, Micros) { return std::optional<AirRun>(); };
    CHECK(place_strikes(show, show.sequences[0], none)[0].fault == StrikeFault::not_known);
    show.rig.actuators[0].motion.out_ms = 218.0;  // 18 ms of delay, 200 ms on its way
    const auto strikes = place_strikes(show, show.sequences[0], none);
    CHECK(strikes[0].fault == StrikeFault::none);
    CHECK(strikes[0].stated);
    CHECK(strikes[0].lead == 208ms);
}

TEST_CASE("by the simulation, figures strike at their moments within a tick") {
    const Show show = show_with({striking(1, lunge, 5s), striking(2, slam, 5s), striking(3, lunge, 7200ms)});
    AirMemo memo;
    const SequenceRun run = work_out(show, show.sequences[0], memo);
    REQUIRE(run.strikes.size() == 3);
    REQUIRE(run.air.run.has_value());
    for (const PlacedStrike& strike : run.strikes) {
        CHECK(strike.fault == StrikeFault::none);
        CHECK(std::chrono::abs(strike.start + *strike.lead - strike.wanted) <= 1ms);
        CHECK(run.strike_of(strike.cue) == &strike);
    }
    CHECK(resolve(show, show.sequences[0]) == run.schedule);
    CHECK(run.air.motions.size() == 2);
    CHECK(run.air.motions[0].simulated);
    CHECK(run.air.motions[0].curve.share_at(Micros{5s}) == Approx(0.95).margin(0.03));
}

TEST_CASE("a cue too short for its stroke does not arrive") {
    const Show show = show_with({striking(1, lunge, 5s, 60ms)});
    AirMemo memo;
    CHECK(work_out(show, show.sequences[0], memo).strikes[0].fault == StrikeFault::does_not_arrive);
}

TEST_CASE("what the simulation lacks is named, and the stated times are drawn") {
    Show show = show_with({striking(1, lunge, 5s)});
    show.rig.actuators[0].valve.supply_c_l_s_bar.reset();
    show.rig.actuators[0].motion.out_ms = 300.0;
    show.rig.actuators[0].motion.back_ms = 800.0;
    AirMemo memo;
    const SequenceRun run = work_out(show, show.sequences[0], memo);
    REQUIRE(run.air.missing.size() == 1);
    CHECK(run.air.missing[0].key == "valve.supply_c_l_s_bar");
    CHECK_FALSE(run.air.motions[0].simulated);
    CHECK(run.air.motions[0].out_known);
    CHECK(run.air.motions[0].curve.share_at(Micros{5s}) == Approx(0.95).margin(0.01));
}
