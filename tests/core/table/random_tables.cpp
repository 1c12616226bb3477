// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/table/random_tables.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <set>

namespace gasp {

namespace {

/// Different names, not empty, with what makes trouble in some form more often than chance would.
std::vector<std::string> random_names(std::size_t count, Names names) {
    static const std::vector<std::string> trouble{"=",
                                                  "+",
                                                  "-",
                                                  "@",
                                                  "'",
                                                  "\"",
                                                  "#",
                                                  ",",
                                                  ";",
                                                  "\t",
                                                  "\r",
                                                  "\n",
                                                  "\\",
                                                  " ",
                                                  "a",
                                                  "\xC3\xA9",
                                                  "*/",
                                                  "/*",
                                                  "?",
                                                  "?\?/",
                                                  "\\\n",
                                                  "$end",
                                                  std::string(1, '\0')};
    const auto piece = rc::gen::elementOf(trouble);
    const auto pieces =
        rc::gen::map(rc::gen::container<std::vector<std::string>>(piece), [](const auto& all) {
            std::string name;
            for (const std::string& each : all) {
                name += each;
            }
            return name;
        });
    const auto any = names == Names::any ? rc::gen::oneOf(pieces, rc::gen::arbitrary<std::string>()) : pieces;
    const auto different = *rc::gen::container<std::set<std::string>>(count, rc::gen::nonEmpty(any));
    return {different.begin(), different.end()};
}

Board random_board(std::uint32_t id, std::string name) {
    Board board;
    board.id.value = id;
    board.name = std::move(name);
    board.tick_ms = *rc::gen::element<Figure>(std::nullopt, 1.0, 0.5, 0.25, 0.1, 0.001, 3.0, 20.0, 1.024);
    return board;
}

Channel random_channel(std::uint32_t id, std::string name, std::uint32_t boards) {
    Channel channel;
    channel.id.value = id;
    channel.name = std::move(name);
    channel.contact = *rc::gen::element(Contact::normally_open, Contact::normally_closed);
    if (const auto board = *rc::gen::inRange<std::uint32_t>(0, boards + 1); board != 0) {
        channel.board = BoardId{board};
    }
    if (*rc::gen::arbitrary<bool>()) {
        channel.output = *rc::gen::arbitrary<std::uint32_t>();
    }
    return channel;
}

}  // namespace

Show random_show(Names names) {
    Show show;
    show.name = random_names(1, names)[0];
    const auto boards = *rc::gen::inRange<std::uint32_t>(0, 3);
    const auto channels = *rc::gen::inRange<std::uint32_t>(0, 6);
    const auto sequences = *rc::gen::inRange<std::uint32_t>(0, 4);
    for (std::string& name : random_names(boards, names)) {
        show.rig.boards.push_back(
            random_board(static_cast<std::uint32_t>(show.rig.boards.size() + 1), std::move(name)));
    }
    for (std::string& name : random_names(channels, names)) {
        show.rig.channels.push_back(random_channel(10 + static_cast<std::uint32_t>(show.rig.channels.size()),
                                                   std::move(name), boards));
    }
    for (std::string& name : random_names(sequences, names)) {
        Sequence& sequence = show.sequences.emplace_back();
        sequence.id.value = 100 + static_cast<std::uint32_t>(show.sequences.size());
        sequence.name = std::move(name);
        sequence.length = Micros{*rc::gen::inRange<std::int64_t>(1, 86'400'000'001)};
    }
    return show;
}

Schedule random_schedule(const Show& show, const Sequence& sequence) {
    Schedule schedule;
    schedule.sequence = sequence.id;
    schedule.length = sequence.length;
    std::vector<std::uint32_t> place(100);
    for (const Channel& channel : show.rig.channels) {
        const Micros tick = tick_of(show, channel);
        place[channel.id.value] = static_cast<std::uint32_t>(schedule.channels.size());
        schedule.channels.push_back({.id = channel.id, .contact = channel.contact, .tick = tick});
        auto ticks = *rc::gen::container<std::set<std::int64_t>>(
            rc::gen::inRange<std::int64_t>(0, sequence.length / tick + 1));
        if (ticks.size() % 2 == 1) {
            ticks.erase(ticks.begin());
        }
        bool driven = false;
        for (const std::int64_t at : ticks) {
            driven = !driven;
            schedule.events.push_back({.time = at * tick, .channel = channel.id, .driven = driven});
        }
    }
    std::ranges::sort(schedule.events, {}, [&](const SwitchEvent& event) {
        return std::pair(event.time, place[event.channel.value]);
    });
    return schedule;
}

std::vector<EventTable> random_tables(const Show& show) {
    std::vector<EventTable> tables;
    for (const Sequence& sequence : show.sequences) {
        tables.push_back(tabulate(show, sequence, random_schedule(show, sequence)));
    }
    return tables;
}

}  // namespace gasp
