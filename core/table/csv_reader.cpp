// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"
#include "core/table/csv_head.hpp"
#include "core/table/csv_records.hpp"
#include "core/table/csv_text.hpp"
#include "core/table/table_fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <unordered_map>

namespace gasp {

namespace {

enum Column : std::size_t { sequence_column, time_column, channel_column, output_column, load_column };

/// The largest of 1, 0.1, 0.01 and 0.001 ms of which a time is a multiple.
Micros coarsest_tick(Micros time) {
    for (const Micros tick : {Micros{1000}, Micros{100}, Micros{10}}) {
        if (time % tick == Micros{0}) {
            return tick;
        }
    }
    return Micros{1};
}

void guess_ticks(EventTable& table) {
    for (const EventRow& row : table.changes()) {
        TableChannel& channel = table.channels[row.channel];
        channel.tick = std::min(channel.tick, coarsest_tick(row.time));
    }
}

class CsvReader {
  public:
    CsvReader(std::string_view name, CsvHead head)
        : name_(name), head_(std::move(head)), records_(head_.rest, head_.rest_line) {}

    Result<std::vector<EventTable>> read();

  private:
    [[nodiscard]] tl::unexpected<Error> refuse(std::size_t line, std::size_t column, std::string what,
                                               std::string remedy) const;
    [[nodiscard]] bool next_record() { return records_.next(fields_); }
    [[nodiscard]] tl::unexpected<Error> refuse_record() const;
    Result<void> read_columns();
    Result<void> read_row();
    Result<void> read_state(EventRow& row, bool& load) const;
    Result<void> begin_table(std::string sequence);
    Result<void> add_row(EventRow row, bool load);
    Result<void> end_table();
    [[nodiscard]] Result<void> refuse_fault(const std::optional<TableFault>& fault) const;
    Result<void> take_from_head();
    Result<std::vector<EventTable>> in_order_of_head();
    void give_ids();

    std::string_view name_;
    CsvHead head_;
    CsvRecords records_;
    std::vector<CsvField> fields_;
    std::vector<EventTable> tables_;
    std::unordered_map<std::string, std::uint32_t> channels_;  ///< of the last table: its index by name
    std::vector<std::size_t> lines_;                           ///< of each row of the last table
    bool in_first_block_ = false;
};

tl::unexpected<Error> CsvReader::refuse(std::size_t line, std::size_t column, std::string what,
                                        std::string remedy) const {
    return fail(std::move(what), fmt::format("{}:{}, column {}", name_, line, csv_columns[column]),
                std::move(remedy));
}

tl::unexpected<Error> CsvReader::refuse_record() const {
    return refuse(records_.line(), std::min(fields_.size(), csv_columns.size() - 1),
                  std::string(records_.problem()), "Write the table again, or mend the line");
}

Result<std::vector<EventTable>> CsvReader::read() {
    if (Result<void> done = read_columns(); !done) {
        return tl::unexpected(done.error());
    }
    while (!records_.at_end()) {
        if (!next_record()) {
            return refuse_record();
        }
        if (Result<void> done = read_row(); !done) {
            return tl::unexpected(done.error());
        }
    }
    if (Result<void> done = end_table(); !done) {
        return tl::unexpected(done.error());
    }
    if (!head_.ours) {
        give_ids();
        return std::move(tables_);
    }
    return in_order_of_head();
}

Result<void> CsvReader::read_columns() {
    constexpr std::string_view remedy = "Begin the rows with: sequence,time_ms,channel,output,load";
    if (records_.at_end()) {
        return fail("there is no row of column names", fmt::format("{}:{}", name_, head_.rest_line),
                    std::string(remedy));
    }
    if (!next_record()) {
        return refuse_record();
    }
    for (std::size_t column = 0; column < csv_columns.size(); ++column) {
        if (column >= fields_.size() || fields_[column].raw != csv_columns[column]) {
            return refuse(records_.line(), column, "the row of column names is not that of an event table",
                          std::string(remedy));
        }
    }
    return {};
}

Result<void> CsvReader::read_row() {
    if (fields_.size() != csv_columns.size()) {
        return refuse(records_.line(), std::min(fields_.size(), csv_columns.size()) - 1,
                      fmt::format("the row has {} fields instead of {}", fields_.size(), csv_columns.size()),
                      "Write the table again, or mend the line");
    }
    std::string sequence = unguarded(fields_[sequence_column].value());
    if (tables_.empty() || tables_.back().sequence != sequence) {
        if (Result<void> done = begin_table(std::move(sequence)); !done) {
            return done;
        }
    }
    EventRow row;
    bool load = false;
    if (Result<void> done = read_state(row, load); !done) {
        return done;
    }
    return add_row(row, load);
}

Result<void> CsvReader::read_state(EventRow& row, bool& load) const {
    const std::optional<Micros> time = read_ms(fields_[time_column].value());
    if (!time) {
        return refuse(records_.line(), time_column, "the time is not a number of ms from 0 to 24 h",
                      "Give it with digits alone, and at most 3 decimals");
    }
    for (const Column column : {output_column, load_column}) {
        if (fields_[column].raw != "0" && fields_[column].raw != "1") {
            return refuse(records_.line(), column, "the state is neither 0 nor 1",
                          "Give 1 for on, 0 for off");
        }
    }
    row.time = *time;
    row.driven = fields_[output_column].raw == "1";
    load = fields_[load_column].raw == "1";
    return {};
}

Result<void> CsvReader::begin_table(std::string sequence) {
    if (Result<void> done = end_table(); !done) {
        return done;
    }
    if (std::ranges::find(tables_, sequence, &EventTable::sequence) != tables_.end()) {
        return refuse(records_.line(), sequence_column,
                      fmt::format("rows of sequence \"{}\" stand in two places", sequence),
                      "Keep the rows of a sequence together");
    }
    tables_.emplace_back().sequence = std::move(sequence);
    channels_.clear();
    lines_.clear();
    in_first_block_ = true;
    return {};
}

Result<void> CsvReader::add_row(EventRow row, bool load) {
    EventTable& table = tables_.back();
    std::string name = unguarded(fields_[channel_column].value());
    auto known = channels_.find(name);
    in_first_block_ = in_first_block_ && row.time == Micros{0} && !row.driven && known == channels_.end();
    if (in_first_block_) {
        known = channels_.emplace(name, static_cast<std::uint32_t>(table.channels.size())).first;
        TableChannel channel;
        channel.name = std::move(name);
        channel.contact = load ? Contact::normally_closed : Contact::normally_open;
        table.channels.push_back(std::move(channel));
    } else if (known == channels_.end()) {
        return refuse(records_.line(), channel_column,
                      fmt::format("channel \"{}\" has no row of rest at time 0", name),
                      "Begin the sequence with a row of rest for each of its channels");
    }
    row.channel = known->second;
    if (load != load_on(table.channels[row.channel].contact, row.driven)) {
        return refuse(records_.line(), load_column,
                      fmt::format("the load of channel \"{}\" does not follow from its output and its rest",
                                  table.channels[row.channel].name),
                      "Correct output or load: they differ in every row of a channel, or in none");
    }
    table.rows.push_back(row);
    lines_.push_back(records_.line());
    return {};
}

Result<void> CsvReader::end_table() {
    if (tables_.empty()) {
        return {};
    }
    EventTable& table = tables_.back();
    table.length = table.rows.back().time;
    if (Result<void> done = refuse_fault(end_fault(table)); !done) {
        return done;
    }
    if (head_.ours) {
        if (Result<void> done = take_from_head(); !done) {
            return done;
        }
    } else {
        guess_ticks(table);
    }
    return refuse_fault(change_fault(table));
}

Result<void> CsvReader::refuse_fault(const std::optional<TableFault>& fault) const {
    if (!fault) {
        return {};
    }
    constexpr std::array columns{sequence_column, time_column, channel_column, output_column};
    return refuse(lines_[std::min(fault->row, lines_.size() - 1)],
                  columns[static_cast<std::size_t>(fault->part)], fault->what, fault->remedy);
}

/// The table as the head describes it, where that is what the rows say too.
Result<void> CsvReader::take_from_head() {
    EventTable& table = tables_.back();
    const auto described = std::ranges::find(head_.tables, table.sequence, &EventTable::sequence);
    const auto same = [](const TableChannel& row, const TableChannel& head) {
        return row.name == head.name && row.contact == head.contact;
    };
    if (described == head_.tables.end() || described->length != table.length ||
        !std::ranges::equal(table.channels, described->channels, same)) {
        return fail(
            fmt::format("the head gives sequence \"{}\" another length or other channels than its rows",
                        table.sequence),
            fmt::format("{}:{}", name_, lines_.front()),
            "Correct the head, or remove it: the rows say enough");
    }
    std::vector<EventRow> rows = std::move(table.rows);
    table = *described;
    table.rows = std::move(rows);
    return {};
}

/// What the head names, with those sequences that have no channels and so no rows.
Result<std::vector<EventTable>> CsvReader::in_order_of_head() {
    std::vector<EventTable> result;
    for (EventTable& described : head_.tables) {
        const auto read = std::ranges::find(tables_, described.sequence, &EventTable::sequence);
        if (read == tables_.end() && !described.channels.empty()) {
            return fail(fmt::format("the head names sequence \"{}\", which has no rows", described.sequence),
                        std::string(name_), "Write the table again, or remove the head: the rows say enough");
        }
        result.push_back(std::move(read == tables_.end() ? described : *read));
    }
    return result;
}

/// Without a head: sequences and channels are numbered from 1 as they appear, a channel alike in all
/// sequences.
void CsvReader::give_ids() {
    std::unordered_map<std::string_view, std::uint32_t> ids;
    for (std::size_t index = 0; index < tables_.size(); ++index) {
        tables_[index].sequence_id.value = static_cast<std::uint32_t>(index + 1);
        for (TableChannel& channel : tables_[index].channels) {
            channel.id.value =
                ids.emplace(channel.name, static_cast<std::uint32_t>(ids.size() + 1)).first->second;
        }
    }
}

}  // namespace

Result<std::vector<EventTable>> read_csv(std::string_view text, std::string_view name) {
    if (text.starts_with("\xEF\xBB\xBF")) {
        text.remove_prefix(3);
    }
    Result<CsvHead> head = read_csv_head(text, name);
    if (!head) {
        return tl::unexpected(head.error());
    }
    return CsvReader(name, std::move(*head)).read();
}

}  // namespace gasp
