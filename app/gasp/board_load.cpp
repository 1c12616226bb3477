// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/board_actions.hpp"
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/stop_findings.hpp"
#include "core/table/table_form.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cstdio>

namespace gasp {

namespace {

/// A line on a terminal that is written over.
void show_progress(std::string_view what, std::size_t done, std::size_t all) {
    if (::isatty(STDERR_FILENO) == 1 && all > 0) {
        fmt::print(stderr, "\r{} {:3} %{}", what, done * 100 / all, done == all ? "\n" : "");
        std::fflush(stderr);
    }
}

Result<BoardId> board_of(const OpenShow& open, const BoardOptions& options, const std::string& show) {
    const Result<std::optional<BoardId>> named = board_named(open.show, options.board, show);
    if (!named) {
        return tl::unexpected(named.error());
    }
    if (*named) {
        return **named;
    }
    if (open.show.rig.boards.size() != 1) {
        return fail(fmt::format("the show has {} boards", open.show.rig.boards.size()), show,
                    "Say which of them this is: --board NAME");
    }
    return open.show.rig.boards.front().id;
}

ShowOptions show_options(const BoardOptions& options, const std::string& show) {
    ShowOptions which;
    which.show = show;
    which.sequence = options.sequence;
    return which;
}

Result<BoardImage> image_of_board(const OpenShow& open, const BoardOptions& options,
                                  const std::string& show) {
    const Result<BoardId> board = board_of(open, options, show);
    if (!board) {
        return tl::unexpected(board.error());
    }
    std::vector<EventTable> tables;
    for (const Sequence* sequence : open.sequences) {
        tables.push_back(tabulate(open.show, *sequence, resolve(open.show, *sequence)));
    }
    return image_of(open.show, tables, *board);
}

std::string text_of(const LoadReport& report, std::size_t room, const std::string& port) {
    const std::string already =
        report.resumed_at > 0 ? fmt::format("; it had {} of them already", report.resumed_at) : "";
    return fmt::format(
        "{} bytes of the {} it has room for loaded, read back and found the same, in {} ms{}\n"
        "The board rests until it is told to go on: gasp board {} go-on\n",
        report.bytes, room, report.took.count(), already, port);
}

}  // namespace

Result<BoardImage> image_for(const BoardOptions& options, const std::string& show, Outcome& outcome) {
    const Result<OpenShow> open = open_show(show_options(options, show));
    if (!open) {
        return tl::unexpected(open.error());
    }
    outcome.sources = open->files;
    return image_of_board(*open, options, show);
}

Result<Outcome> load_table(Conversation& board, const BoardOptions& options) {
    const std::string& show = options.target.empty() ? options.show : options.target;
    if (show.empty()) {
        return fail("no show is given", {}, "Name it: gasp board PORT load SHOW");
    }
    const ShowOptions which = show_options(options, show);
    const Result<OpenShow> open = open_show(which);
    if (!open) {
        return tl::unexpected(open.error());
    }
    Outcome outcome;
    outcome.sources = open->files;
    const Result<BoardImage> image = image_of_board(*open, options, show);
    if (!image) {
        return tl::unexpected(image.error());
    }
    if (std::string stops = stops_against_table(*open, which); !stops.empty()) {
        outcome.messages.push_back(std::move(stops));
        if (!options.despite_stops) {
            outcome.messages.emplace_back(
                "Nothing was loaded. Mend what was found, or load all the same: --despite-stops");
            outcome.code = ExitCode::stop_findings;
            return outcome;
        }
    }
    // With its new table it would begin its own work at once, and move.
    const Result<BoardIdentity> identity = board.identify();
    const Result<LoadReport> report =
        identity.and_then([&](const BoardIdentity&) { return board.stop(); }).and_then([&] {
            return board.load(write_image(*image),
                              [](std::size_t done, std::size_t all) { show_progress("load", done, all); });
        });
    if (!report) {
        return tl::unexpected(report.error());
    }
    outcome.text = options.json ? json_text(Json{{"bytes", report->bytes},
                                                 {"room", identity->store},
                                                 {"resumed_at", report->resumed_at},
                                                 {"verified", true},
                                                 {"took_ms", report->took.count()},
                                                 {"requests_repeated", board.trouble().repeated}})
                                : text_of(*report, identity->store, options.port);
    return outcome;
}

Result<Outcome> read_table(Conversation& board, const BoardOptions& options) {
    const std::string& path = options.target.empty() ? options.show : options.target;
    const Result<std::string> bytes =
        board.read_image_back([](std::size_t done, std::size_t all) { show_progress("read", done, all); });
    if (!bytes) {
        return tl::unexpected(bytes.error());
    }
    Outcome outcome;
    const TableForm form = options.json ? TableForm::json : options.form;
    if (form == TableForm::board_image) {
        if (options.output.empty() && ::isatty(STDOUT_FILENO) == 1) {
            return fail("a board image is not for a terminal", {}, "Give -o FILE");
        }
        outcome.text = *bytes;
        return outcome;
    }
    const Result<BoardImage> image = read_image(*bytes, options.port);
    if (!image) {
        return tl::unexpected(image.error());
    }
    Show show;
    Result<std::vector<EventTable>> tables = tables_of(*image);
    if (!path.empty()) {
        Result<OpenShow> open = open_show(show_options({}, path));
        if (!open) {
            return tl::unexpected(open.error());
        }
        outcome.sources = open->files;
        tables = tables_of(*image, open->show);
    }
    return tables
        .and_then([&](const std::vector<EventTable>& all) { return write_form(form, show, all, {}); })
        .map([&](std::string text) {
            outcome.text = std::move(text);
            return std::move(outcome);
        });
}

}  // namespace gasp
