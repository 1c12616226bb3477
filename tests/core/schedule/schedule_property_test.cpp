// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/schedule.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <set>

using namespace gasp;

namespace {

/// Up to 40 cues on three channels of unlike ticks, some flashing, some outside, in a sequence of 2 s.
Show random_show() {
    Show show = empty_show();
    show.sequences[0].length = Micros{*rc::gen::inRange(1, 2'000'000)};
    const double ticks[] = {1.0, 0.7, 20.0};
    for (std::uint32_t i = 0; i < 3; ++i) {
        Board board;
        board.id = {100 + i};
        board.tick_ms = ticks[i];
        show.rig.boards.push_back(board);
        Channel channel;
        channel.id = {200 + i};
        channel.board = board.id;
        show.rig.channels.push_back(channel);
    }
    const auto count = *rc::gen::inRange<std::uint32_t>(0, 40);
    for (std::uint32_t id = 1; id <= count; ++id) {
        Cue cue;
        cue.id = {id};
        cue.channel = {200 + *rc::gen::inRange<std::uint32_t>(0, 3)};
        cue.at = Micros{*rc::gen::inRange(-300'000, 2'200'000)};
        cue.length = Micros{*rc::gen::inRange(1, 400'000)};
        if (*rc::gen::inRange(0, 3) == 0) {
            cue.flashes =
                Flashes{*rc::gen::inRange(1, 400) / 2.0, static_cast<double>(*rc::gen::inRange(1, 100))};
        }
        show.sequences[0].cues.push_back(cue);
    }
    return show;
}

/// The slow way: a channel is driven over a rounded stretch of any of its cues.
bool driven_by_any(const Show& show, const Channel& channel, Micros moment) {
    const Sequence& sequence = show.sequences[0];
    const double tick = static_cast<double>(tick_of(show, channel).count());
    const auto rounded = [&](Micros time) {
        return std::round(static_cast<double>(time.count()) / tick) * tick;
    };
    return std::any_of(sequence.cues.begin(), sequence.cues.end(), [&](const Cue& cue) {
        if (cue.channel != channel.id) {
            return false;
        }
        const auto dwells = dwells_of(sequence, cue);
        return std::any_of(dwells.begin(), dwells.end(), [&](const Dwell& dwell) {
            const auto now = static_cast<double>(moment.count());
            return rounded(dwell.begin) <= now && now < rounded(dwell.end);
        });
    });
}

}  // namespace

TEST_CASE("any schedule is in order, on the tick, inside the sequence, and every event changes its channel") {
    REQUIRE(rc::check([] {
        const Show show = random_show();
        const Schedule schedule = resolve(show, show.sequences[0]);
        std::set<std::uint32_t> driven;
        Micros before{0};
        for (const SwitchEvent& event : schedule.events) {
            const Channel* channel = find(show, event.channel);
            RC_ASSERT(event.time >= before);
            RC_ASSERT(event.time <= schedule.length);
            RC_ASSERT(event.time % tick_of(show, *channel) == Micros{0});
            if (event.driven) {
                RC_ASSERT(driven.insert(event.channel.value).second);
            } else {
                RC_ASSERT(driven.erase(event.channel.value) == 1U);
            }
            before = event.time;
        }
        RC_ASSERT(driven.empty());
    }));
}

TEST_CASE("any schedule drives each channel when one of its cues does") {
    REQUIRE(rc::check([] {
        const Show show = random_show();
        const Schedule schedule = resolve(show, show.sequences[0]);
        const auto dwells = dwells_by_channel(schedule);
        for (std::size_t place = 0; place < dwells.size(); ++place) {
            const Channel& channel = show.rig.channels[place];
            const Micros tick = tick_of(show, channel);
            const Micros last = schedule.length / tick * tick;
            for (int i = 0; i < 50; ++i) {
                const Micros moment{*rc::gen::inRange<std::int64_t>(0, schedule.length.count())};
                RC_ASSERT(driven_at(dwells[place], moment) ==
                          (moment < last && driven_by_any(show, channel, moment)));
            }
        }
    }));
}

TEST_CASE("everything a whole tick later gives the same schedule a tick later") {
    REQUIRE(rc::check([] {
        Show show = random_show();
        Sequence& sequence = show.sequences[0];
        sequence.length = std::chrono::seconds{3};
        for (Cue& cue : sequence.cues) {
            cue.at += Micros{300'000};
        }
        const Schedule early = resolve(show, sequence);
        const Micros shift{140'000};  // a multiple of all three ticks
        for (Cue& cue : sequence.cues) {
            cue.at += shift;
        }
        const Schedule late = resolve(show, sequence);
        RC_ASSERT(early.events.size() == late.events.size());
        for (std::size_t i = 0; i < early.events.size(); ++i) {
            RC_ASSERT(early.events[i].time + shift == late.events[i].time);
            RC_ASSERT(early.events[i].channel == late.events[i].channel);
            RC_ASSERT(early.events[i].driven == late.events[i].driven);
        }
    }));
}
