// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/table_fault.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

using Part = TableFault::Part;

std::optional<TableFault> order_fault(const EventTable& table, const EventRow* before, const EventRow& row) {
    if ((before != nullptr &&
         (row.time < before->time || (row.time == before->time && row.channel <= before->channel))) ||
        row.time > table.length) {
        return TableFault{0, Part::time, "the row is out of order",
                          "Put the rows in order of time, then of the channels"};
    }
    if (row.time % table.channels[row.channel].tick != Micros{0}) {
        return TableFault{0, Part::time, "the time is not on the tick the head gives",
                          "Put it on the tick, or correct the tick"};
    }
    return std::nullopt;
}

}  // namespace

std::optional<TableFault> end_fault(const EventTable& table) {
    constexpr auto remedy = "End the sequence with a row of rest for each of its channels, in their order";
    const std::size_t rest = table.channels.size();
    if (table.rows.size() < 2 * rest) {
        return TableFault{table.rows.size() - 1, Part::sequence,
                          fmt::format("sequence \"{}\" ends without rest", table.sequence), remedy};
    }
    for (std::size_t channel = 0; channel < rest; ++channel) {
        const std::size_t place = table.rows.size() - rest + channel;
        const EventRow& row = table.rows[place];
        if (row.channel != channel || row.driven || row.time != table.rows.back().time) {
            return TableFault{place, Part::channel,
                              fmt::format("sequence \"{}\" does not end at rest", table.sequence), remedy};
        }
    }
    return std::nullopt;
}

std::optional<TableFault> change_fault(const EventTable& table) {
    const std::size_t rest = table.channels.size();
    const std::span<const EventRow> changes = table.changes();
    std::vector<bool> driven(rest);
    for (std::size_t change = 0; change < changes.size(); ++change) {
        const EventRow& row = changes[change];
        if (auto fault = order_fault(table, change > 0 ? &row - 1 : nullptr, row)) {
            fault->row = rest + change;
            return fault;
        }
        if (driven[row.channel] == row.driven) {
            return TableFault{
                rest + change, Part::output,
                fmt::format("channel \"{}\" was in this state already", table.channels[row.channel].name),
                "Remove the row, or put back the one missing before it"};
        }
        driven[row.channel] = row.driven;
    }
    if (const auto on = std::ranges::find(driven, true); on != driven.end()) {
        const auto channel = static_cast<std::size_t>(on - driven.begin());
        return TableFault{
            rest + changes.size() + channel, Part::output,
            fmt::format("channel \"{}\" is still driven at the end", table.channels[channel].name),
            "Add a row that puts it to rest, at the end at the latest"};
    }
    return std::nullopt;
}

}  // namespace gasp
