// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/open_show.hpp"
#include "app/gasp/stop_findings.hpp"
#include "app/gasp/table_compare.hpp"
#include "app/gasp/verbs.hpp"
#include "core/schedule/clock_drift.hpp"
#include "core/table/image_room.hpp"
#include "core/table/table_form.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <set>

namespace gasp {

namespace {

bool is_folder(const std::string& output) {
    std::error_code error;
    return output.ends_with('/') || std::filesystem::is_directory(output, error);
}

/// A file for each board, or for the one asked for, in the folder of -o.
Result<void> add_files(Outcome& outcome, const Show& show, std::span<const EventTable> tables,
                       std::optional<BoardId> only, const TableOptions& options) {
    std::error_code error;
    std::filesystem::create_directories(options.output, error);
    std::set<std::string> names;
    const std::vector<std::string> with_channels = boards_of(tables);
    for (const Board& board : show.rig.boards) {
        if (only ? board.id != *only : std::ranges::count(with_channels, board.name) == 0) {
            continue;
        }
        Result<std::string> text = write_form(options.form, show, tables, board.id, options.comments);
        if (!text) {
            return tl::unexpected(text.error());
        }
        std::string name = file_name_of(board.name);
        for (int number = 2; !names.insert(name).second; ++number) {
            name = fmt::format("{}_{}", file_name_of(board.name), number);
        }
        name += info_of(options.form).suffix;
        outcome.files.emplace_back(std::filesystem::path(options.output) / name, std::move(*text));
        outcome.text += (std::filesystem::path(options.output) / name).string() + "\n";
    }
    return outcome.files.empty() ? fail("no channel is on a board", {}, "Give the channels their boards")
                                 : Result<void>();
}

std::string start_words(const Show& show, const Board& board, const Board& other) {
    const bool line = board.start != BoardStart::trigger && other.start != BoardStart::trigger;
    return show.rig.boards.size() > 1 && line ? "on a start line" : "by the same trigger";
}

/// What an image takes of the board it is for.
void tell_room(Outcome& outcome, const Show& show, std::span<const EventTable> tables,
               std::optional<BoardId> only) {
    for (const Board& board : show.rig.boards) {
        const ImageRoom room = image_room(show, tables, board);
        if (room.bytes > 0 && room.has && (!only || board.id == *only)) {
            outcome.messages.push_back(fmt::format("\"{}\": the table takes {} of {} bytes, {} events",
                                                   board.name, room.bytes, *room.has, room.events()));
        }
    }
}

/// How far the boards of each sequence may be apart by its last change.
void tell_drift(Outcome& outcome, const OpenShow& open) {
    for (const Sequence* sequence : open.sequences) {
        for (const ClockDrift& drift : clock_drifts(open.show, *sequence, resolve(open.show, *sequence))) {
            if (!drift.other) {
                continue;
            }
            const Board& board = *find(open.show, drift.board);
            const Board& other = *find(open.show, *drift.other);
            outcome.messages.push_back(fmt::format(
                "{}: \"{}\" and \"{}\" start {} and {} by {}", sequence->name, board.name, other.name,
                start_words(open.show, board, other),
                drift.drift_ms
                    ? fmt::format("may be {:.3g} ms apart", *drift.drift_ms)
                    : std::string("may drift apart, nobody has said how fast (clock_ppm of both),"),
                print_time(drift.at)));
        }
    }
}

}  // namespace

Result<Outcome> run(const TableOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const Result<std::optional<BoardId>> board = board_named(open->show, options.board, options.show);
    if (!board) {
        return tl::unexpected(board.error());
    }
    Outcome outcome;
    outcome.sources = open->files;
    std::vector<EventTable> tables;
    for (const Sequence* sequence : open->sequences) {
        tables.push_back(tabulate(open->show, *sequence, resolve(open->show, *sequence)));
    }
    if (!options.compare.empty()) {
        return compare(*open, tables, options.board, options);
    }
    if (std::string stops = stops_against_table(*open, options); !stops.empty()) {
        outcome.code = ExitCode::stop_findings;
        outcome.messages.push_back(std::move(stops));
    }
    tell_drift(outcome, *open);
    if (options.form == TableForm::board_image) {
        tell_room(outcome, open->show, tables, *board);
    }
    if (is_folder(options.output)) {
        return add_files(outcome, open->show, tables, *board, options).map([&] {
            return std::move(outcome);
        });
    }
    if (!info_of(options.form).text && options.output.empty() && ::isatty(STDOUT_FILENO) == 1) {
        return fail("a board image is not for a terminal", {}, "Give -o FILE");
    }
    return write_form(options.form, open->show, tables, *board, options.comments).map([&](std::string text) {
        outcome.text = std::move(text);
        return std::move(outcome);
    });
}

}  // namespace gasp
