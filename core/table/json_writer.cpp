// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/json_text.hpp"
#include "core/table/json.hpp"
#include "core/table/json_form.hpp"

#include <nlohmann/json.hpp>

#include <array>

namespace gasp {

namespace {

constexpr Layout list_in_lines{"[\n    ", ",\n    ", "\n  ]"};
constexpr Layout tables_in_lines{"[\n  ", ",\n  ", "\n]"};

/// In ASCII, so that no name can steer a terminal; bytes that are not UTF-8 become U+FFFD.
std::string ascii_text(std::string_view name) {
    return nlohmann::json(name).dump(-1, ' ', true, nlohmann::json::error_handler_t::replace);
}

void put_name(JsonText& text, JsonItems& object, std::string_view key, std::string_view name) {
    object.key(key);
    text.put(ascii_text(name));
}

void put_channel(JsonText& text, const TableChannel& channel) {
    JsonItems object(text, object_in_a_line);
    put_name(text, object, "name", channel.name);
    object.integer("id", channel.id.value);
    object.string("contact", contact_word(channel.contact));
    if (!channel.board.empty()) {
        put_name(text, object, "board", channel.board);
    }
    if (channel.output) {
        object.integer("output_number", *channel.output);
    }
    object.integer("tick_us", channel.tick.count());
    object.close();
}

/// What stands behind a row's time, for each channel at rest and driven: names are escaped once.
std::vector<std::array<std::string, 2>> row_ends(const EventTable& table) {
    std::vector<std::array<std::string, 2>> ends;
    for (const TableChannel& channel : table.channels) {
        auto& of_channel = ends.emplace_back();
        for (const bool driven : {false, true}) {
            JsonText text;
            text.put(", \"channel\": ");
            text.put(ascii_text(channel.name));
            text.put(driven ? ", \"output\": 1" : ", \"output\": 0");
            text.put(load_on(channel.contact, driven) ? ", \"load\": 1}" : ", \"load\": 0}");
            of_channel[driven ? 1 : 0] = text.take();
        }
    }
    return ends;
}

void put_table(JsonText& text, const EventTable& table) {
    JsonItems object(text, object_in_a_line);
    put_name(text, object, "sequence", table.sequence);
    object.integer("id", table.sequence_id.value);
    object.integer("length_us", table.length.count());
    object.key("channels");
    JsonItems channels(text, list_in_lines);
    for (const TableChannel& channel : table.channels) {
        channels.next();
        put_channel(text, channel);
    }
    channels.close();
    object.key("rows");
    const auto ends = row_ends(table);
    JsonItems rows(text, list_in_lines);
    for (const EventRow& row : table.rows) {
        rows.next();
        text.put("{\"time_us\": ");
        text.number(row.time.count());
        text.put(ends[row.channel][row.driven ? 1 : 0]);
    }
    rows.close();
    object.close();
}

}  // namespace

std::string write_json(std::span<const EventTable> tables) {
    JsonText text;
    constexpr Layout lines{"{\n", ",\n", "\n}\n"};
    JsonItems object(text, lines);
    object.string("format", json_table_format);
    object.integer("version", json_table_version);
    put_name(text, object, "show", tables.empty() ? std::string_view() : tables.front().show);
    object.key("tables");
    JsonItems list(text, tables_in_lines);
    for (const EventTable& table : tables) {
        list.next();
        put_table(text, table);
    }
    list.close();
    object.close();
    return text.take();
}

}  // namespace gasp
