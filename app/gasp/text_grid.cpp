// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/text_grid.hpp"

#include "app/gasp/terminal.hpp"

#include <algorithm>

namespace gasp {

namespace {

/// Places on a terminal: one for each code point.
std::size_t width_of(std::string_view text) {
    return static_cast<std::size_t>(
        std::ranges::count_if(text, [](char c) { return (static_cast<unsigned char>(c) & 0xc0U) != 0x80; }));
}

}  // namespace

void TextGrid::add(std::vector<std::string> cells) {
    std::ranges::transform(cells, cells.begin(), printable);
    lines_.push_back(std::move(cells));
}

std::string TextGrid::text() const {
    std::vector<std::size_t> widths(columns_.size());
    for (const std::vector<std::string>& line : lines_) {
        for (std::size_t column = 0; column < line.size(); ++column) {
            widths[column] = std::max(widths[column], width_of(line[column]));
        }
    }
    std::string text;
    for (const std::vector<std::string>& line : lines_) {
        std::string row = indent_;
        for (std::size_t column = 0; column < line.size(); ++column) {
            const std::string gap(widths[column] - width_of(line[column]), ' ');
            row += (column == 0 ? "" : "  ");
            row += columns_[column] == Align::left ? line[column] + gap : gap + line[column];
        }
        row.erase(row.find_last_not_of(' ') + 1);
        text += row + '\n';
    }
    return text;
}

}  // namespace gasp
