// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/validity.hpp"
#include "core/table/json.hpp"
#include "core/table/json_form.hpp"
#include "core/table/table_fault.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <limits>
#include <unordered_map>

namespace gasp {

namespace {

using Json = nlohmann::json;

/// Thrown where the text cannot be a table, caught by read_json.
struct Refused {
    Error error;
};

/// A value of the text. It must not outlive the one it was taken from.
class Node {
  public:
    Node(const Json& value, std::string_view file) : value_(value), step_(file) {}

    [[noreturn]] void refuse(std::string what, std::string remedy = "Write the table again") const {
        throw Refused{{std::move(what), way(), std::move(remedy)}};
    }

    [[nodiscard]] bool has(const char* key) const { return object().contains(key); }

    [[nodiscard]] Node at(const char* key) const {
        const auto member = object().find(key);
        if (member == value_.end()) {
            refuse(fmt::format("\"{}\" is missing", key));
        }
        return {*member, this, key, 0};
    }

    [[nodiscard]] std::size_t size() const {
        if (!value_.is_array()) {
            refuse("a list must stand here");
        }
        return value_.size();
    }

    [[nodiscard]] Node item(std::size_t index) const { return {value_[index], this, {}, index}; }

    [[nodiscard]] std::string text() const {
        if (!value_.is_string()) {
            refuse("a text must stand here");
        }
        return value_.get<std::string>();
    }

    [[nodiscard]] std::int64_t whole(std::int64_t least, std::int64_t most) const {
        if (!value_.is_number_integer() ||
            (value_.is_number_unsigned() && value_.get<std::uint64_t>() > static_cast<std::uint64_t>(most)) ||
            value_.get<std::int64_t>() < least || value_.get<std::int64_t>() > most) {
            refuse(fmt::format("a whole number from {} to {} must stand here", least, most));
        }
        return value_.get<std::int64_t>();
    }

    [[nodiscard]] std::uint32_t number() const {
        return static_cast<std::uint32_t>(whole(0, std::numeric_limits<std::uint32_t>::max()));
    }

    [[nodiscard]] Micros time() const { return Micros{whole(0, longest_sequence.count())}; }

  private:
    Node(const Json& value, const Node* whole, std::string_view key, std::size_t index)
        : value_(value), whole_(whole), step_(key), index_(index) {}

    [[nodiscard]] std::string way() const {
        if (whole_ == nullptr) {
            return std::string(step_);
        }
        if (step_.empty()) {
            return fmt::format("{}[{}]", whole_->way(), index_);
        }
        return fmt::format("{}{}{}", whole_->way(), whole_->whole_ == nullptr ? ": " : ".", step_);
    }

    [[nodiscard]] const Json& object() const {
        if (!value_.is_object()) {
            refuse("an object must stand here");
        }
        return value_;
    }

    const Json& value_;
    const Node* whole_ = nullptr;  ///< null: this is the whole text
    std::string_view step_;        ///< the key within it; empty for an item of a list
    std::size_t index_ = 0;
};

TableChannel read_channel(const Node& node) {
    TableChannel channel;
    channel.name = node.at("name").text();
    channel.id.value = node.at("id").number();
    const std::string contact = node.at("contact").text();
    channel.contact =
        contact == contact_word(Contact::normally_closed) ? Contact::normally_closed : Contact::normally_open;
    if (contact != contact_word(channel.contact)) {
        node.at("contact").refuse("the contact is neither NO nor NC", "Give one of them");
    }
    channel.board = node.has("board") ? node.at("board").text() : "";
    channel.output =
        node.has("output_number") ? std::optional(node.at("output_number").number()) : std::nullopt;
    channel.tick = Micros{node.at("tick_us").whole(1, longest_sequence.count())};
    return channel;
}

using Places = std::unordered_map<std::string, std::uint32_t>;

EventRow read_row(const Node& node, const EventTable& table, const Places& places) {
    const auto place = places.find(node.at("channel").text());
    if (place == places.end()) {
        node.at("channel").refuse("the table has no channel of this name", "Name one of its channels");
    }
    const EventRow row{node.at("time_us").time(), place->second, node.at("output").whole(0, 1) == 1};
    const bool load = node.at("load").whole(0, 1) == 1;
    if (load != load_on(table.channels[row.channel].contact, row.driven)) {
        node.at("load").refuse("the load does not follow from its output and its contact",
                               "Correct output, load or contact");
    }
    return row;
}

void refuse_faults(const Node& rows, const EventTable& table) {
    std::optional<TableFault> fault = end_fault(table);
    if (!fault) {
        for (std::uint32_t channel = 0; channel < table.channels.size(); ++channel) {
            if (table.rows[channel] != EventRow{Micros{0}, channel, false}) {
                rows.item(channel).refuse("the table does not begin with a row of rest for each channel");
            }
        }
        fault = table.rows.empty() || table.rows.back().time == table.length
                    ? change_fault(table)
                    : TableFault{table.rows.size() - 1, {}, "the last row is not at the length", {}};
    }
    if (fault && table.rows.empty()) {
        rows.refuse(fault->what);
    } else if (fault) {
        rows.item(fault->row).refuse(fault->what);
    }
}

EventTable read_table(const Node& node, const std::string& show) {
    EventTable table;
    table.show = show;
    table.sequence = node.at("sequence").text();
    table.sequence_id.value = node.at("id").number();
    table.length = node.at("length_us").time();
    Places places;
    const Node channels = node.at("channels");
    for (std::size_t index = 0; index < channels.size(); ++index) {
        table.channels.push_back(read_channel(channels.item(index)));
        if (!places.emplace(table.channels.back().name, static_cast<std::uint32_t>(index)).second) {
            channels.item(index).refuse("two channels have this name", "Give each its own");
        }
    }
    const Node rows = node.at("rows");
    table.rows.reserve(rows.size());
    for (std::size_t index = 0; index < rows.size(); ++index) {
        table.rows.push_back(read_row(rows.item(index), table, places));
    }
    refuse_faults(rows, table);
    return table;
}

std::vector<EventTable> read_tables(const Node& root) {
    if (!root.has("format") || root.at("format").text() != json_table_format) {
        root.refuse("this is no event table of Gaspworks", "Write it with: gasp table SHOW --as json");
    }
    if (root.at("version").number() != json_table_version) {
        root.at("version").refuse("the table is of a version this program does not know",
                                  "Read it with a newer version");
    }
    const std::string show = root.at("show").text();
    const Node list = root.at("tables");
    std::vector<EventTable> tables;
    for (std::size_t index = 0; index < list.size(); ++index) {
        tables.push_back(read_table(list.item(index), show));
        if (std::ranges::count(tables, tables.back().sequence, &EventTable::sequence) > 1) {
            list.item(index).refuse("two tables are of this sequence", "Keep one of them");
        }
    }
    return tables;
}

}  // namespace

Result<std::vector<EventTable>> read_json(std::string_view text, std::string_view name) {
    try {
        const Json json = Json::parse(text);
        return read_tables(Node(json, name));
    } catch (const Json::parse_error& error) {
        const std::size_t place = std::min(error.byte, text.size());
        return fail("the text is no JSON from here on",
                    fmt::format("{}:{}", name, 1 + std::ranges::count(text.substr(0, place), '\n')),
                    "Write the table again");
    } catch (const Json::out_of_range&) {
        return fail("a number is larger than any table holds", std::string(name), "Write the table again");
    } catch (const Refused& refused) {
        return tl::unexpected(refused.error);
    }
}

}  // namespace gasp
