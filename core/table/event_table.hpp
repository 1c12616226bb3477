// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/schedule.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// One line of an event table: one change of one channel, or its rest state at the beginning or the end.
struct EventRow {
    Micros time{0};
    std::uint32_t channel = 0;  ///< index into the table's channels
    bool driven = false;        ///< the output
    bool operator==(const EventRow&) const = default;
};

/// A channel as a table names it.
struct TableChannel {
    ChannelId id;
    std::string name;
    Contact contact = Contact::normally_open;
    std::string board;  ///< empty where it has none
    std::optional<std::uint32_t> output;
    Micros tick{1000};
    bool operator==(const TableChannel&) const = default;
};

/// What is exported of a sequence: every channel's rest at 0, then its changes, then every channel's rest at
/// the end. The changes are in order of time, then of the channels; the two blocks of rest in order of the
/// channels.
struct EventTable {
    std::string show;
    std::string sequence;
    SequenceId sequence_id;
    Micros length{0};
    std::vector<TableChannel> channels;
    std::vector<EventRow> rows;
    bool operator==(const EventTable&) const = default;

    /// The rows between the two blocks of rest. Requires: both are there.
    [[nodiscard]] std::span<const EventRow> changes() const {
        return std::span(rows).subspan(channels.size(), rows.size() - 2 * channels.size());
    }
};

[[nodiscard]] EventTable tabulate(const Show& show, const Sequence& sequence, const Schedule& schedule);

/// Appends a row of rest for each channel, as tables begin and end.
void add_rest(EventTable& table, Micros time);

/// What one board has of a table: its channels, and their rows.
[[nodiscard]] EventTable of_board(const EventTable& table, std::string_view board);

/// The names of the boards that the channels of these tables are on, in the order of the channels.
[[nodiscard]] std::vector<std::string> boards_of(std::span<const EventTable> tables);

/// The schedule a table came from, exactly, but for its notes on rounding.
[[nodiscard]] Schedule schedule_of(const EventTable& table);

/// A table read without its head, completed with what its rows cannot say: ids, boards, outputs and ticks,
/// found in the show by the names of sequence and channels. Error: a name the show does not have, or a
/// channel whose contact differs there.
[[nodiscard]] Result<EventTable> bound_to(EventTable table, const Show& show);

}  // namespace gasp
