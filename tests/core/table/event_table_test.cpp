// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/event_table.hpp"

#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>

using namespace gasp;

namespace {

Show small_show() {
    Show show;
    show.name = "Keeper";
    Board& quay = show.rig.boards.emplace_back();
    quay.id = {1};
    quay.name = "quay";
    quay.tick_ms = 0.5;
    Channel lamp;
    lamp.id = {2};
    lamp.name = "lamp";
    lamp.board = BoardId{1};
    lamp.output = 3;
    Channel lock = lamp;
    lock.id = {3};
    lock.name = "lock";
    lock.contact = Contact::normally_closed;
    lock.board.reset();
    lock.output.reset();
    show.rig.channels = {lamp, lock};
    Sequence& night = show.sequences.emplace_back();
    night.id = {4};
    night.name = "night";
    night.length = Micros{2'000'000};
    return show;
}

Schedule small_schedule() {
    Schedule schedule;
    schedule.sequence = {4};
    schedule.length = Micros{2'000'000};
    schedule.channels = {{{2}, Contact::normally_open, Micros{500}},
                         {{3}, Contact::normally_closed, Micros{1000}}};
    schedule.events = {{Micros{0}, {3}, true},
                       {Micros{1'000'500}, {2}, true},
                       {Micros{2'000'000}, {2}, false},
                       {Micros{2'000'000}, {3}, false}};
    return schedule;
}

}  // namespace

TEST_CASE("a table begins and ends with every channel at rest, and names what it switches") {
    const Show show = small_show();
    const EventTable table = tabulate(show, show.sequences[0], small_schedule());

    CHECK(table.show == "Keeper");
    CHECK(table.sequence == "night");
    REQUIRE(table.channels.size() == 2);
    CHECK(table.channels[0] ==
          TableChannel{{2}, "lamp", Contact::normally_open, "quay", std::uint32_t{3}, Micros{500}});
    CHECK(table.channels[1] ==
          TableChannel{{3}, "lock", Contact::normally_closed, "", std::nullopt, Micros{1000}});
    CHECK(table.rows == std::vector<EventRow>{{Micros{0}, 0, false},
                                              {Micros{0}, 1, false},
                                              {Micros{0}, 1, true},
                                              {Micros{1'000'500}, 0, true},
                                              {Micros{2'000'000}, 0, false},
                                              {Micros{2'000'000}, 1, false},
                                              {Micros{2'000'000}, 0, false},
                                              {Micros{2'000'000}, 1, false}});
}

TEST_CASE("a table gives its schedule back") {
    REQUIRE(rc::check("for any schedule", [] {
        const Show show = random_show();
        for (const Sequence& sequence : show.sequences) {
            const Schedule schedule = random_schedule(show, sequence);
            RC_ASSERT(schedule_of(tabulate(show, sequence, schedule)) == schedule);
        }
    }));
}

TEST_CASE("a table is bound to a show by names") {
    const Show show = small_show();
    const EventTable table = tabulate(show, show.sequences[0], small_schedule());
    EventTable bare = table;
    bare.show.clear();
    bare.sequence_id = {1};
    for (TableChannel& channel : bare.channels) {
        channel = {{7}, channel.name, channel.contact, "", std::nullopt, Micros{1}};
    }

    SECTION("and then equals the one it came from") {
        const Result<EventTable> bound = bound_to(bare, show);
        REQUIRE(bound);
        CHECK(*bound == table);
    }
    SECTION("unless the show lacks the sequence") {
        bare.sequence = "day";
        CHECK(bound_to(bare, show).error().what == "the show has no sequence \"day\"");
    }
    SECTION("unless the show lacks a channel") {
        bare.channels[1].name = "bell";
        CHECK(bound_to(bare, show).error().what == "the show has no channel \"bell\"");
    }
    SECTION("unless it names another output or board") {
        bare.channels[0].output = 5;
        CHECK(bound_to(bare, show).error().what ==
              "channel \"lamp\" is on another board or output in the show than in the table");
        bare.channels[0].output.reset();
        bare.channels[0].board = "pier";
        CHECK_FALSE(bound_to(bare, show));
    }
    SECTION("unless a contact differs") {
        bare.channels[1].contact = Contact::normally_open;
        CHECK(bound_to(bare, show).error().what ==
              "channel \"lock\" has another contact in the show than in the table");
    }
}
