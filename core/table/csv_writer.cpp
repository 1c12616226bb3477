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
#include <memory>

namespace gasp {

namespace {

/// A piece of a row that many rows share, copied in steps of a fixed size: the compiler makes these two
/// instructions where a copy of the exact length would be a call.
class Piece {
  public:
    static constexpr std::size_t step = 16;
    /// How many bytes copy_to() may touch for a text of `size`.
    static constexpr std::size_t room(std::size_t size) { return (size + step - 1) / step * step; }

    explicit Piece(std::string text) : padded_(std::move(text)), size_(padded_.size()) {
        padded_.resize(room(size_));
    }
    [[nodiscard]] std::size_t size() const { return size_; }
    [[nodiscard]] char* copy_to(char* place) const {
        for (std::size_t done = 0; done < size_; done += step) {
            std::memcpy(place + done, padded_.data() + done, step);
        }
        return place + size_;
    }

  private:
    std::string padded_;
    std::size_t size_;
};

std::string field(std::string_view name) {
    std::string text;
    append_csv_field(text, guarded(name));
    return text;
}

/// Where row_ends() has what stands behind a row's time.
std::size_t end_of(const EventRow& row) {
    return 2 * std::size_t{row.channel} + (row.driven ? 1 : 0);
}

std::vector<Piece> row_ends(const EventTable& table) {
    std::vector<Piece> ends;
    for (const TableChannel& channel : table.channels) {
        const std::string name = field(channel.name);
        for (const bool driven : {false, true}) {
            ends.emplace_back(
                fmt::format(",{},{},{}\r\n", name, driven ? 1 : 0, load_on(channel.contact, driven) ? 1 : 0));
        }
    }
    return ends;
}

/// An upper bound of the bytes of a table's rows, within a few digits a row: fresh memory costs more than the
/// rows that are written into it.
std::size_t room_for_rows(const EventTable& table, std::size_t before, const std::vector<Piece>& ends) {
    constexpr std::size_t longest_decimals = 4;  // ".125"
    Micros latest{0};
    std::size_t decimals = 0;
    std::size_t size = 0;
    for (const EventRow& row : table.rows) {
        latest = std::max(latest, row.time);
        decimals = row.time.count() % 1000 == 0 ? decimals : longest_decimals;
        size += ends[end_of(row)].size();
    }
    std::array<char, longest_ms> digits{};
    const Micros whole{latest.count() / 1000 * 1000};
    const auto longest = static_cast<std::size_t>(write_ms(digits.data(), whole) - digits.data());
    return size + (before + longest + decimals) * table.rows.size();
}

/// Appends a table's rows by way of a block that stays in the cache: the text itself is touched once.
void append_rows(std::string& text, const EventTable& table) {
    const Piece before(field(table.sequence) + ',');
    const std::vector<Piece> ends = row_ends(table);
    text.reserve(text.size() + room_for_rows(table, before.size(), ends));
    std::size_t longest = 0;
    for (const Piece& end : ends) {
        longest = std::max(longest, Piece::room(before.size()) + longest_ms + Piece::room(end.size()));
    }
    constexpr std::size_t block_size = 1 << 15;
    const auto block = std::make_unique_for_overwrite<char[]>(block_size + longest);
    const char* const full = block.get() + block_size;
    char* place = block.get();
    for (const EventRow& row : table.rows) {
        place = before.copy_to(place);
        place = write_ms(place, row.time);
        place = ends[end_of(row)].copy_to(place);
        if (place >= full) {
            text.append(block.get(), place);
            place = block.get();
        }
    }
    text.append(block.get(), place);
}

}  // namespace

std::string write_csv(std::span<const EventTable> tables, const CsvOptions& options) {
    std::string text = options.comments ? write_csv_head(tables) : std::string();
    text += fmt::format("{}\r\n", fmt::join(csv_columns, ","));
    for (const EventTable& table : tables) {
        append_rows(text, table);
    }
    return text;
}

}  // namespace gasp
