// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/motion_preview.hpp"

#include "core/air/budget/band.hpp"
#include "core/show/edits.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <array>
#include <chrono>
#include <cmath>

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

/// Ten cues of each valve, 5 s apart; a plant that feeds both.
Show fed_show() {
    Show show = rig_of_two();
    show.rig.air_plant.receiver_l = 200.0;
    show.rig.channels = {valve(lunge, keeper), valve(slam, hatch)};
    Sequence& sequence = show.sequences[0];
    sequence.length = 60s;
    for (std::uint32_t i = 0; i < 20; ++i) {
        Cue cue;
        cue.id = {100 + i};
        cue.channel = i % 2 == 0 ? lunge : slam;
        cue.at = 2s + (i / 2) * 5s + (i % 2) * 300ms;
        cue.length = 1200ms;
        sequence.cues.push_back(cue);
    }
    return show;
}

Sequence cues_of(const Sequence& sequence, ChannelId channel) {
    Sequence own = sequence;
    std::erase_if(own.cues, [channel](const Cue& cue) { return cue.channel != channel; });
    return own;
}

SequenceRun run_of(const Show& show) {
    AirMemo memo;
    return work_out(show, show.sequences[0], memo);
}

MotionPreview preview(const Show& show, const SequenceRun& last, std::size_t most = 24) {
    const auto made =
        preview_motion(show, cues_of(show.sequences[0], lunge), keeper, last, fitted_air_model(show), most);
    REQUIRE(made);
    return *made;
}

double furthest_apart(const MotionCurve& one, const MotionCurve& other) {
    double apart = 0.0;
    for (double time = 0.0; time < 60.0; time += 0.01) {
        apart = std::max(apart, std::abs(one.share_at(time) - other.share_at(time)));
    }
    return apart;
}

void move(Show& show, CueId cue, Micros by) {
    const std::array ids{cue};
    apply(move_cues(show, show.sequences[0].id, ids, by), show);
}

}  // namespace

TEST_CASE("before any edit the preview is the run itself, and nothing is simulated") {
    const Show show = fed_show();
    const SequenceRun run = run_of(show);
    const MotionPreview same = preview(show, run);
    REQUIRE(same.simulated == 0);
    REQUIRE(same.ahead.empty());
    REQUIRE(same.strokes.size() == 20);
    REQUIRE(furthest_apart(same.motion, run.air.motion_of(keeper)->curve) < 1e-9);
}

TEST_CASE("a cue moved anywhere moves the figure as the next run has it, for the strokes of that cue alone") {
    const Show before = fed_show();
    const SequenceRun last = run_of(before);
    REQUIRE(rc::check([&] {
        Show show = before;
        const CueId cue{100 + 2 * *rc::gen::inRange(0U, 10U)};
        move(show, cue, Micros{*rc::gen::inRange(-6000, 6000) * 1000});
        if (*rc::gen::arbitrary<bool>()) {
            const Cue& moved = *find(show.sequences[0], cue);
            const Micros length{*rc::gen::inRange(100, 4000) * 1000};
            apply(stretch_cue(show, show.sequences[0].id, cue, moved.at, length), show);
        }
        const MotionPreview ahead = preview(show, last);
        const SequenceRun next = run_of(show);
        RC_ASSERT(ahead.whole);
        RC_ASSERT(ahead.simulated <= 8);
        RC_ASSERT(furthest_apart(ahead.motion, next.air.motion_of(keeper)->curve) < 0.02);
        for (const Stroke& stroke : ahead.strokes) {
            const auto found = std::ranges::find(next.air.run->strokes, stroke.command, &Stroke::command);
            RC_ASSERT(found != next.air.run->strokes.end());
            RC_ASSERT(stroke.strike_s().has_value() == found->strike_s().has_value());
            if (stroke.strike_s()) {
                RC_ASSERT(std::abs(*stroke.strike_s() - *found->strike_s()) < 0.002);
            }
        }
    }));
}

TEST_CASE("on a starved plant the moved stroke meets the pressure that was there") {
    Show show = fed_show();
    show.rig.air_plant.receiver_l = 8.0;
    show.rig.air_plant.delivery_l_min = 10.0;
    const SequenceRun last = run_of(show);
    move(show, {110}, 500ms);
    const MotionPreview ahead = preview(show, last);
    REQUIRE(ahead.simulated == 2);
    const auto moved = std::ranges::find(ahead.strokes, Micros{27500ms},
                                         [](const Stroke& stroke) { return stroke.command.time; });
    REQUIRE(moved != ahead.strokes.end());
    REQUIRE(moved->receiver_kpa == Approx(last.air.run->receiver_kpa.at(Micros{27500ms})).epsilon(1e-3));
    REQUIRE(moved->receiver_kpa < 400.0);
}

TEST_CASE("more strokes than may be simulated at once stand still and say so") {
    const Show before = fed_show();
    Show show = before;
    std::vector<CueId> all;
    for (std::uint32_t i = 0; i < 20; i += 2) {
        all.push_back({100 + i});
    }
    apply(move_cues(show, show.sequences[0].id, all, 700ms), show);
    const MotionPreview ahead = preview(show, run_of(before), 6);
    REQUIRE_FALSE(ahead.whole);
    REQUIRE(ahead.simulated <= 6);
}

TEST_CASE("without a run of before there is no preview; without a simulation it is the stated travel") {
    Show show = fed_show();
    REQUIRE_FALSE(preview_motion(show, show.sequences[0], keeper, {}, fitted_air_model(show)));
    const SequenceRun last = run_of(show);
    show.rig.actuators[0].cylinder.bore_mm.reset();
    show.rig.actuators[0].motion = {400.0, 600.0, {}};
    const MotionPreview stated = preview(show, last);
    REQUIRE(stated.simulated == 0);
    REQUIRE(stated.motion.share_at(Micros{2500ms}) == Approx(1.0));
}
