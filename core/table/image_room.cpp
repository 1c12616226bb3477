// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/image_room.hpp"

#include "core/table/image_form.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

/// Which channels of a table have an output of the board.
std::vector<bool> on_board(const Show& show, const EventTable& table, const Board& board) {
    std::vector<bool> result;
    for (const TableChannel& one : table.channels) {
        const Channel* channel = find(show, one.id);
        result.push_back(channel != nullptr && channel->board == board.id && channel->output);
    }
    return result;
}

std::size_t events_of(const Show& show, const EventTable& table, const Board& board) {
    const std::vector<bool> counts = on_board(show, table, board);
    return static_cast<std::size_t>(
        std::ranges::count_if(table.changes(), [&](const EventRow& row) { return counts[row.channel]; }));
}

/// An image names every output up to the highest that is used.
std::size_t outputs_of(const Show& show, const Board& board) {
    std::size_t highest = 0;
    for (const Channel& channel : show.rig.channels) {
        if (channel.board == board.id && channel.output) {
            highest = std::max<std::size_t>(highest, *channel.output);
        }
    }
    return highest;
}

}  // namespace

std::size_t ImageRoom::events() const {
    std::size_t all = 0;
    for (const OfSequence& sequence : sequences) {
        all += sequence.events;
    }
    return all;
}

ImageRoom image_room(const Show& show, std::span<const EventTable> tables, const Board& board) {
    ImageRoom room;
    if (board.table_bytes) {
        room.has = static_cast<std::size_t>(*board.table_bytes);
    }
    for (const EventTable& table : tables) {
        room.sequences.push_back({table.sequence, events_of(show, table, board)});
    }
    const std::size_t outputs = outputs_of(show, board);
    if (outputs > 0) {
        room.bytes =
            image_head + outputs + tables.size() * image_sequence + room.events() * image_event + image_crc;
    }
    return room;
}

std::string what_would_fit(const ImageRoom& room) {
    const std::size_t events = room.events();
    const std::size_t too_many = (room.bytes - *room.has + image_event - 1) / image_event;
    if (events <= too_many) {
        return fmt::format(
            "Not even the {} sequences without events would fit: export fewer, or take a "
            "board with more room",
            room.sequences.size());
    }
    std::string each;
    for (const ImageRoom::OfSequence& sequence : room.sequences) {
        each += fmt::format("{}{} in \"{}\"", each.empty() ? "" : ", ", sequence.events, sequence.name);
    }
    return fmt::format(
        "{} of its {} events would fit ({}): export fewer sequences, or leave out flashes and "
        "cues",
        events - too_many, events, each);
}

}  // namespace gasp
