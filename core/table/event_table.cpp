// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/event_table.hpp"

#include <algorithm>
#include <unordered_map>

namespace gasp {

namespace {

TableChannel table_channel(const Show& show, const ScheduledChannel& scheduled) {
    TableChannel result;
    result.id = scheduled.id;
    result.contact = scheduled.contact;
    result.tick = scheduled.tick;
    if (const Channel* channel = find(show, scheduled.id)) {
        result.name = channel->name;
        result.output = channel->output;
        if (const Board* board = channel->board ? find(show, *channel->board) : nullptr) {
            result.board = board->name;
        }
    }
    return result;
}

}  // namespace

void add_rest(EventTable& table, Micros time) {
    for (std::uint32_t channel = 0; channel < table.channels.size(); ++channel) {
        table.rows.push_back({.time = time, .channel = channel, .driven = false});
    }
}

EventTable of_board(const EventTable& table, std::string_view board) {
    EventTable part{.show = table.show,
                    .sequence = table.sequence,
                    .sequence_id = table.sequence_id,
                    .length = table.length,
                    .channels = {},
                    .rows = {}};
    std::vector<std::optional<std::uint32_t>> places;
    for (const TableChannel& channel : table.channels) {
        const bool on_it = channel.board == board;
        places.push_back(on_it ? std::optional(static_cast<std::uint32_t>(part.channels.size()))
                               : std::nullopt);
        if (on_it) {
            part.channels.push_back(channel);
        }
    }
    for (const EventRow& row : table.rows) {
        if (const auto place = places[row.channel]) {
            part.rows.push_back({.time = row.time, .channel = *place, .driven = row.driven});
        }
    }
    return part;
}

std::vector<std::string> boards_of(std::span<const EventTable> tables) {
    std::vector<std::string> boards;
    for (const EventTable& table : tables) {
        for (const TableChannel& channel : table.channels) {
            if (!channel.board.empty() && std::ranges::find(boards, channel.board) == boards.end()) {
                boards.push_back(channel.board);
            }
        }
    }
    return boards;
}

EventTable tabulate(const Show& show, const Sequence& sequence, const Schedule& schedule) {
    EventTable table{.show = show.name,
                     .sequence = sequence.name,
                     .sequence_id = schedule.sequence,
                     .length = schedule.length,
                     .channels = {},
                     .rows = {}};
    std::unordered_map<ChannelId, std::uint32_t> index;
    for (const ScheduledChannel& scheduled : schedule.channels) {
        index.emplace(scheduled.id, static_cast<std::uint32_t>(table.channels.size()));
        table.channels.push_back(table_channel(show, scheduled));
    }
    table.rows.reserve(schedule.events.size() + 2 * table.channels.size());
    add_rest(table, Micros{0});
    for (const SwitchEvent& event : schedule.events) {
        table.rows.push_back(
            {.time = event.time, .channel = index.at(event.channel), .driven = event.driven});
    }
    add_rest(table, table.length);
    return table;
}

Schedule schedule_of(const EventTable& table) {
    Schedule schedule;
    schedule.sequence = table.sequence_id;
    schedule.length = table.length;
    schedule.channels.reserve(table.channels.size());
    for (const TableChannel& channel : table.channels) {
        schedule.channels.push_back({.id = channel.id, .contact = channel.contact, .tick = channel.tick});
    }
    const std::span<const EventRow> changes = table.changes();
    schedule.events.reserve(changes.size());
    for (const EventRow& event : changes) {
        schedule.events.push_back(
            {.time = event.time, .channel = table.channels[event.channel].id, .driven = event.driven});
    }
    return schedule;
}

Result<EventTable> bound_to(EventTable table, const Show& show) {
    const auto sequence = std::ranges::find(show.sequences, table.sequence, &Sequence::name);
    if (sequence == show.sequences.end()) {
        return fail("the show has no sequence \"" + table.sequence + "\"", table.sequence,
                    "Give the sequence its name in the table, or take another table");
    }
    table.show = show.name;
    table.sequence_id = sequence->id;
    for (TableChannel& channel : table.channels) {
        const auto found = std::ranges::find(show.rig.channels, channel.name, &Channel::name);
        if (found == show.rig.channels.end()) {
            return fail("the show has no channel \"" + channel.name + "\"", table.sequence,
                        "Give the channel its name in the table, or take another table");
        }
        if (found->contact != channel.contact) {
            return fail("channel \"" + channel.name + "\" has another contact in the show than in the table",
                        table.sequence, "Set its contact as wired, and write the table again");
        }
        const TableChannel in_show =
            table_channel(show, {.id = found->id, .contact = found->contact, .tick = tick_of(show, *found)});
        if ((channel.output && channel.output != in_show.output) ||
            (!channel.board.empty() && channel.board != in_show.board)) {
            return fail("channel \"" + channel.name +
                            "\" is on another board or output in the show than in the table",
                        table.sequence, "Set both as wired, and write the table again");
        }
        channel = in_show;
    }
    return table;
}

}  // namespace gasp
