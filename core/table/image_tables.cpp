// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/board_image.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace gasp {

namespace {

tl::unexpected<Error> differs(std::string what) {
    return fail(std::move(what), "table image", "Write or load the table of this show again");
}

/// The channels of a board as its tables have them, and for each output which of them it is.
struct BoardChannels {
    std::vector<TableChannel> channels;
    std::vector<std::optional<std::uint32_t>> by_output;
};

Result<BoardChannels> channels_of(const BoardImage& image, const Show& show, const Board& board) {
    BoardChannels found{{}, std::vector<std::optional<std::uint32_t>>(image.outputs.size())};
    for (const Channel& channel : show.rig.channels) {
        if (channel.board != board.id) {
            continue;
        }
        const bool on_it = channel.output && *channel.output >= 1 && *channel.output <= image.outputs.size();
        if (channel.output && (!on_it || !image.outputs[*channel.output - 1].used)) {
            return differs(fmt::format("it has no output for channel \"{}\"", channel.name));
        }
        if (on_it && image.outputs[*channel.output - 1].normally_closed !=
                         (channel.contact == Contact::normally_closed)) {
            return differs(fmt::format("it has another contact for channel \"{}\"", channel.name));
        }
        if (on_it) {
            found.by_output[*channel.output - 1] = static_cast<std::uint32_t>(found.channels.size());
        }
        found.channels.push_back(
            {channel.id, channel.name, channel.contact, board.name, channel.output, image.tick});
    }
    for (std::size_t output = 0; output < image.outputs.size(); ++output) {
        if (image.outputs[output].used && !found.by_output[output]) {
            return differs(fmt::format("the show has no channel on its output {}", output + 1));
        }
    }
    return found;
}

EventTable table_of(const ImageSequence& sequence, const BoardChannels& known, Micros tick) {
    EventTable table;
    table.channels = known.channels;
    add_rest(table, Micros{0});
    for (const ImageEvent& event : sequence.events) {
        table.rows.push_back({event.tick * tick, *known.by_output[event.output], event.driven});
    }
    std::ranges::sort(table.rows.begin() + static_cast<std::ptrdiff_t>(table.channels.size()),
                      table.rows.end(), {},
                      [](const EventRow& row) { return std::pair(row.time, row.channel); });
    return table;
}

}  // namespace

Result<std::vector<EventTable>> tables_of(const BoardImage& image, const Show& show) {
    const Board* board = find(show, image.board);
    if (board == nullptr) {
        return differs("it is of a board that the show does not have");
    }
    if (from_ms(board->tick_ms.value_or(1.0)) != image.tick) {
        return differs(fmt::format("its tick is not that of \"{}\"", board->name));
    }
    const Result<BoardChannels> known = channels_of(image, show, *board);
    if (!known) {
        return tl::unexpected(known.error());
    }
    std::vector<EventTable> tables;
    for (const ImageSequence& sequence : image.sequences) {
        const Sequence* in_show = find(show, sequence.id);
        if (in_show == nullptr ||
            (in_show->length + image.tick - Micros{1}) / image.tick != sequence.length) {
            return differs(fmt::format("the show has no sequence \"{}\" of its length", sequence.name));
        }
        EventTable& table = tables.emplace_back(table_of(sequence, *known, image.tick));
        table.show = show.name;
        table.sequence = in_show->name;
        table.sequence_id = in_show->id;
        table.length = in_show->length;
        add_rest(table, table.length);
    }
    return tables;
}

std::vector<EventTable> tables_of(const BoardImage& image) {
    BoardChannels known{{}, std::vector<std::optional<std::uint32_t>>(image.outputs.size())};
    for (std::uint32_t output = 0; output < image.outputs.size(); ++output) {
        const ImageOutput& one = image.outputs[output];
        if (one.used) {
            known.by_output[output] = static_cast<std::uint32_t>(known.channels.size());
            known.channels.push_back({{output + 1},
                                      fmt::format("output {}", output + 1),
                                      one.normally_closed ? Contact::normally_closed : Contact::normally_open,
                                      image.name,
                                      output + 1,
                                      image.tick});
        }
    }
    std::vector<EventTable> tables;
    for (const ImageSequence& sequence : image.sequences) {
        EventTable& table = tables.emplace_back(table_of(sequence, known, image.tick));
        table.sequence = sequence.name;
        if (std::ranges::count(tables, table.sequence, &EventTable::sequence) > 1) {
            table.sequence += fmt::format(" {}", tables.size());  // two names that were cut alike
        }
        table.sequence_id = sequence.id;
        table.length = sequence.length * image.tick;
        add_rest(table, table.length);
    }
    return tables;
}

}  // namespace gasp
