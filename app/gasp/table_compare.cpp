// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/table_compare.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/read_whole_file.hpp"
#include "core/table/board_image.hpp"
#include "core/table/table_form.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

std::string row_text(const EventTable& table, const EventRow& row) {
    return fmt::format("{} {} output {}", print_time(row.time), table.channels[row.channel].name,
                       row.driven ? 1 : 0);
}

/// The first thing in which a table of a file is not the show's; empty when they are the same.
std::string difference(const EventTable& mine, const EventTable& theirs) {
    if (mine.length != theirs.length) {
        return fmt::format("it is {} long, in the show {}", print_duration(theirs.length),
                           print_duration(mine.length));
    }
    if (mine.channels != theirs.channels) {
        return "its channels, or their boards, outputs, contacts or ticks, are not those of the show";
    }
    const auto [my_row, their_row] = std::ranges::mismatch(mine.rows, theirs.rows);
    if (my_row == mine.rows.end() && their_row == theirs.rows.end()) {
        return {};
    }
    return fmt::format("it has {}, the show {}",
                       their_row == theirs.rows.end() ? "no more rows" : row_text(theirs, *their_row),
                       my_row == mine.rows.end() ? "no more rows" : row_text(mine, *my_row));
}

/// What a file has, or why it is not of this show.
struct Theirs {
    std::vector<EventTable> tables;
    std::optional<std::string> board;  ///< the file is of this board alone
    std::string not_of_show;           ///< empty where it may be
};

Result<Theirs> read_theirs(const std::string& bytes, const std::string& name, const Show& show) {
    if (form_of(bytes) != TableForm::board_image) {
        return read_form(bytes, name).map([](std::vector<EventTable> tables) {
            return Theirs{std::move(tables), {}, {}};
        });
    }
    const Result<BoardImage> image = read_image(bytes, name);
    if (!image) {
        return tl::unexpected(image.error());
    }
    Result<std::vector<EventTable>> tables = tables_of(*image, show);
    if (!tables) {
        return Theirs{{}, {}, tables.error().what};
    }
    return Theirs{std::move(*tables), find(show, image->board)->name, {}};
}

std::string difference(const EventTable& mine, const Theirs& theirs, const Show& show) {
    if (!theirs.not_of_show.empty()) {
        return theirs.not_of_show;
    }
    const auto found = std::ranges::find(theirs.tables, mine.sequence, &EventTable::sequence);
    if (found == theirs.tables.end()) {
        return "the file does not have it";
    }
    const Result<EventTable> bound = bound_to(*found, show);
    return bound ? difference(mine, *bound) : bound.error().what;
}

}  // namespace

Result<Outcome> compare(const OpenShow& open, std::span<const EventTable> tables,
                        const std::optional<std::string>& board, const TableOptions& options) {
    const Result<std::string> bytes = read_whole_file(options.compare);
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    const Result<Theirs> theirs = read_theirs(*bytes, options.compare, open.show);
    if (!theirs) {
        return tl::unexpected(theirs.error());
    }
    const std::optional<std::string>& part = theirs->board ? theirs->board : board;
    Outcome outcome;
    outcome.sources = open.files;
    outcome.sources.emplace_back(options.compare);
    Json json{{"show", open.show.name}, {"file", options.compare}, {"sequences", Json::array()}};
    for (const EventTable& mine : tables) {
        const std::string differs = difference(part ? of_board(mine, *part) : mine, *theirs, open.show);
        json["sequences"].push_back(
            {{"sequence", mine.sequence}, {"same", differs.empty()}, {"difference", differs}});
        outcome.text += fmt::format("{}: {}\n", mine.sequence, differs.empty() ? "the same" : differs);
        outcome.code = differs.empty() ? outcome.code : ExitCode::stop_findings;
    }
    if (options.json) {
        outcome.text = json_text(json);
    }
    return outcome;
}

}  // namespace gasp
