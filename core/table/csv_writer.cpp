// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"
#include "core/table/csv_head.hpp"
#include "core/table/csv_records.hpp"
#include "core/table/csv_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstring>

namespace gasp {

namespace {

/// The parts of a table's rows that repeat: what stands before the time, and what behind it.
struct RowParts {
    std::string before;
    std::vector<std::array<std::string, 2>> behind;  ///< of each channel, at rest and driven
    std::size_t longest = 0;                         ///< bytes of the longest row

    explicit RowParts(const EventTable& table) {
        append_csv_field(before, guarded(table.sequence));
        before += ',';
        for (const TableChannel& channel : table.channels) {
            std::string name = ",";
            append_csv_field(name, guarded(channel.name));
            auto& states = behind.emplace_back();
            for (const bool driven : {false, true}) {
                states[driven] = fmt::format("{},{},{}\r\n", name, driven ? 1 : 0,
                                             load_on(channel.contact, driven) ? 1 : 0);
            }
            longest = std::max(longest, before.size() + longest_ms + states[0].size());
        }
    }
};

char* copy(char* place, const std::string& part) {
    std::memcpy(place, part.data(), part.size());
    return place + part.size();
}

}  // namespace

std::string write_csv(std::span<const EventTable> tables, const CsvOptions& options) {
    std::string text = options.comments ? write_csv_head(tables) : std::string();
    text += fmt::format("{}\r\n", fmt::join(csv_columns, ","));
    std::size_t used = text.size();
    for (const EventTable& table : tables) {
        const RowParts parts(table);
        text.resize(used + parts.longest * table.rows.size());
        char* place = text.data() + used;
        for (const EventRow& row : table.rows) {
            place = copy(place, parts.before);
            place = write_ms(place, row.time);
            place = copy(place, parts.behind[row.channel][row.driven]);
        }
        used = static_cast<std::size_t>(place - text.data());
    }
    text.resize(used);
    return text;
}

}  // namespace gasp
