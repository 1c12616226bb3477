// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/verbs.hpp"
#include "core/checks/check.hpp"
#include "core/table/csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <system_error>

namespace gasp {

namespace {

Json json_of(const TableChannel& channel) {
    Json json{{"name", channel.name}, {"contact", channel.contact == Contact::normally_open ? "NO" : "NC"}};
    json["board"] = channel.board.empty() ? Json() : Json(channel.board);
    json["output_number"] = channel.output ? Json(*channel.output) : Json();
    json["tick_us"] = channel.tick.count();
    return json;
}

Json json_of(const EventTable& table) {
    Json json{{"sequence", table.sequence}, {"length_us", table.length.count()}, {"channels", Json::array()}};
    for (const TableChannel& channel : table.channels) {
        json["channels"].push_back(json_of(channel));
    }
    json["rows"] = Json::array();
    for (const EventRow& row : table.rows) {
        const TableChannel& channel = table.channels[row.channel];
        json["rows"].push_back({{"time_us", row.time.count()},
                                {"channel", channel.name},
                                {"output", row.driven ? 1 : 0},
                                {"load", load_on(channel.contact, row.driven) ? 1 : 0}});
    }
    return json;
}

std::string json_of(const Show& show, const std::vector<EventTable>& tables) {
    Json json{{"show", show.name}, {"tables", Json::array()}};
    for (const EventTable& table : tables) {
        json["tables"].push_back(json_of(table));
    }
    return json_text(json);
}

Result<std::string> text_of_file(const std::string& path) {
    std::error_code error;
    std::string text;
    if (std::filesystem::is_regular_file(path, error)) {
        text.resize(std::filesystem::file_size(path, error));
        std::ifstream file(path, std::ios::binary);
        if (!error && file.read(text.data(), static_cast<std::streamsize>(text.size()))) {
            return text;
        }
    }
    return fail("there is no file of this name that can be read", path, "Check the name and the permissions");
}

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

/// One line for each of the show's sequences that were asked for.
Result<Outcome> compare(const OpenShow& open, const std::vector<EventTable>& tables,
                        const TableOptions& options) {
    const Result<std::string> text = text_of_file(options.compare);
    if (!text) {
        return tl::unexpected(text.error());
    }
    const Result<std::vector<EventTable>> read = read_csv(*text, options.compare);
    if (!read) {
        return tl::unexpected(read.error());
    }
    Outcome outcome;
    outcome.sources = open.files;
    outcome.sources.emplace_back(options.compare);
    Json json{{"show", open.show.name}, {"file", options.compare}, {"sequences", Json::array()}};
    for (const EventTable& mine : tables) {
        const auto found = std::ranges::find(*read, mine.sequence, &EventTable::sequence);
        std::string differs = "the file does not have it";
        if (found != read->end()) {
            const Result<EventTable> bound = bound_to(*found, open.show);
            differs = bound ? difference(mine, *bound) : bound.error().what;
        }
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

std::size_t stop_findings(const OpenShow& open) {
    std::size_t count = 0;
    for (const Sequence* sequence : open.sequences) {
        count += static_cast<std::size_t>(
            std::ranges::count(check(open.show, *sequence), Severity::stop, &Finding::severity));
    }
    return count;
}

}  // namespace

Result<Outcome> run(const TableOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    Outcome outcome;
    outcome.sources = open->files;
    std::vector<EventTable> tables;
    for (const Sequence* sequence : open->sequences) {
        tables.push_back(tabulate(open->show, *sequence, resolve(open->show, *sequence)));
    }
    if (!options.compare.empty()) {
        return compare(*open, tables, options);
    }
    if (const std::size_t stops = stop_findings(*open); stops > 0) {
        outcome.code = ExitCode::stop_findings;
        outcome.messages.push_back(
            fmt::format("{}: {} of severity stop stand{} against this table. See gasp check.", options.show,
                        stops == 1 ? "1 finding" : fmt::format("{} findings", stops), stops == 1 ? "s" : ""));
    }
    outcome.text =
        options.json ? json_of(open->show, tables) : write_csv(tables, {.comments = options.comments});
    return outcome;
}

}  // namespace gasp
