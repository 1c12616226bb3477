// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/schedule.hpp"

#include "core/schedule/cue_spans.hpp"
#include "tests/support/catch.hpp"

#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// One board of a tick, two lamps on it, and a sequence of 10 s.
Show lamps(double tick_ms = 1.0) {
    Show show = empty_show();
    Board board;
    board.id = {50};
    board.name = "board";
    board.tick_ms = tick_ms;
    show.rig.boards.push_back(board);
    for (const std::uint32_t id : {60U, 61U}) {
        Channel channel;
        channel.id = {id};
        channel.name = "lamp " + std::to_string(id);
        channel.board = board.id;
        show.rig.channels.push_back(channel);
    }
    show.next_id = 1000;
    return show;
}

Cue cue(std::uint32_t id, std::uint32_t channel, Micros at, Micros length) {
    Cue made;
    made.id = {id};
    made.channel = {channel};
    made.at = at;
    made.length = length;
    return made;
}

Schedule resolved(Show& show, std::vector<Cue> cues) {
    show.sequences[0].cues = std::move(cues);
    return resolve(show, show.sequences[0]);
}

using Events = std::vector<SwitchEvent>;
constexpr ChannelId first{60};
constexpr ChannelId second{61};

}  // namespace

TEST_CASE("a cue becomes two events; channels come in the order of the rig") {
    Show show = lamps();
    const Schedule schedule = resolved(show, {cue(1, 61, 1s, 500ms), cue(2, 60, 1s, 1s)});
    CHECK(schedule.events ==
          Events{{1s, first, true}, {1s, second, true}, {1500ms, second, false}, {2s, first, false}});
    REQUIRE(schedule.channels.size() == 2);
    CHECK(schedule.channels[0].id == first);
    CHECK(schedule.length == 10s);
    CHECK(schedule.largest_rounding == 0us);
}

TEST_CASE("cues of a channel that overlap or touch are joined") {
    Show show = lamps();
    const Schedule schedule = resolved(
        show, {cue(1, 60, 1s, 1s), cue(2, 60, 1500ms, 1s), cue(3, 60, 2500ms, 1s), cue(4, 60, 1200ms, 10ms)});
    CHECK(schedule.events == Events{{1s, first, true}, {3500ms, first, false}});
    CHECK(schedule.lost_in_tick == 0);
}

TEST_CASE("edges are rounded once to the tick, half away from zero, and the furthest move is reported") {
    Show show = lamps(10.0);
    const Schedule schedule = resolved(show, {cue(1, 60, 14'999us, 20ms), cue(2, 60, 95ms, 25ms)});
    // 14.999 -> 10, 34.999 -> 30; 95 -> 100 (the half, away from zero), 120 -> 120
    CHECK(schedule.events ==
          Events{{10ms, first, true}, {30ms, first, false}, {100ms, first, true}, {120ms, first, false}});
    CHECK(schedule.largest_rounding == 5ms);
}

TEST_CASE("rounding to a tick of an odd number of microseconds") {
    CHECK(on_tick(2us, 5us) == 0us);
    CHECK(on_tick(3us, 5us) == 5us);
    CHECK(on_tick(-3us, 5us) == -5us);
    CHECK(on_tick(-2us, 5us) == 0us);
    CHECK(on_tick(5us, 10us) == 10us);
    CHECK(on_tick(-5us, 10us) == -10us);
}

TEST_CASE("what lies outside the sequence is cut, on the last tick inside it") {
    Show show = lamps(3.0);
    show.sequences[0].length = 100ms;
    const Schedule schedule =
        resolved(show, {cue(1, 60, -50ms, 59ms), cue(2, 60, 90ms, 1s), cue(3, 61, 200ms, 1s)});
    CHECK(schedule.events ==
          Events{{0ms, first, true}, {9ms, first, false}, {90ms, first, true}, {99ms, first, false}});
    CHECK(schedule.lost_in_tick == 0);
}

TEST_CASE("a cue shorter than half a tick vanishes and is counted") {
    Show show = lamps(10.0);
    const Schedule schedule = resolved(show, {cue(1, 60, 11ms, 3ms), cue(2, 60, 4ms, 3ms)});
    CHECK(schedule.events == Events{{0ms, first, true}, {10ms, first, false}});
    CHECK(schedule.lost_in_tick == 1);
}

TEST_CASE("a tied cue goes where its mark is") {
    Show show = lamps();
    Mark mark;
    mark.id = {5};
    mark.name = "light";
    mark.time = 3s;
    show.sequences[0].marks.push_back(mark);
    Cue tied = cue(1, 60, -250ms, 100ms);
    tied.mark = mark.id;
    CHECK(resolved(show, {tied}).events == Events{{2750ms, first, true}, {2850ms, first, false}});
}

TEST_CASE("flashes begin with on, and the last is cut where the cue ends") {
    Show show = lamps();
    Cue flashing = cue(1, 60, 1s, 1100ms);
    flashing.flashes = Flashes{2.0, 25.0};
    const Schedule schedule = resolved(show, {flashing});
    CHECK(schedule.events == Events{{1s, first, true},
                                    {1125ms, first, false},
                                    {1500ms, first, true},
                                    {1625ms, first, false},
                                    {2000ms, first, true},
                                    {2100ms, first, false}});
}

TEST_CASE("flashes do not drift: at 3 Hz the 30 000th begins after exactly 10 000 s") {
    Show show = lamps();
    show.sequences[0].length = 3h;
    Cue flashing = cue(1, 60, 0s, 3h);
    flashing.flashes = Flashes{3.0, 50.0};
    const auto dwells = dwells_by_channel(resolved(show, {flashing}))[0];
    REQUIRE(dwells.size() == 32'400);
    CHECK(dwells[30'000].begin == 10'000s);
    CHECK(dwells[1].begin == 333ms);
    CHECK(dwells[2].begin == 667ms);
    CHECK(dwells_of(show.sequences[0], flashing)[1].begin == 333'333us);
}

TEST_CASE("a steady cue over a flashing one joins with its flashes") {
    Show show = lamps();
    Cue flashing = cue(1, 60, 0s, 1s);
    flashing.flashes = Flashes{5.0, 50.0};  // on at 0, 200, 400, 600, 800 for 100 ms
    const auto dwells = dwells_by_channel(resolved(show, {flashing, cue(2, 60, 250ms, 200ms)}))[0];
    CHECK(dwells == std::vector<Dwell>{{0ms, 100ms}, {200ms, 500ms}, {600ms, 700ms}, {800ms, 900ms}});
}

TEST_CASE("a flood of flashes is bounded: 1000 Hz over 24 h on a hundred cues") {
    Show show = lamps();
    show.sequences[0].length = 24h;
    std::vector<Cue> cues;
    for (std::uint32_t id = 1; id <= 100; ++id) {
        cues.push_back(cue(id, 60, 0s, 24h));
        cues.back().flashes = Flashes{1000.0, 50.0};
    }
    const Schedule schedule = resolved(show, cues);
    CHECK(schedule.events.size() <= 2 * most_flashes);
    CHECK(dwells_of(show.sequences[0], cues[0]).size() == 1'000'000);
    CHECK(dwells_of(show.sequences[0], cues[0], 7).size() == 7);
}

TEST_CASE("cues of no channel, and no cues at all") {
    Show show = lamps();
    CHECK(resolved(show, {cue(1, 999, 0s, 1s)}).events.empty());
    CHECK(resolved(show, {}).events.empty());
    CHECK(dwells_by_channel(resolved(show, {})).size() == 2);
}

TEST_CASE("whether a channel is driven at a moment") {
    const std::vector<Dwell> dwells{{1s, 2s}, {3s, 4s}};
    CHECK_FALSE(driven_at(dwells, 999'999us));
    CHECK(driven_at(dwells, 1s));
    CHECK_FALSE(driven_at(dwells, 2s));
    CHECK(driven_at(dwells, 3500ms));
    CHECK_FALSE(driven_at(dwells, 4s));
    CHECK_FALSE(driven_at({}, 0s));
}

TEST_CASE("what the load sees depends on the contact") {
    CHECK(load_on(Contact::normally_open, true));
    CHECK_FALSE(load_on(Contact::normally_open, false));
    CHECK_FALSE(load_on(Contact::normally_closed, true));
    CHECK(load_on(Contact::normally_closed, false));
}
