// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/verbs.hpp"
#include "core/link/conversation.hpp"
#include "core/table/board_image.hpp"

#include <optional>
#include <span>
#include <string_view>

namespace gasp {

/// What `gasp board PORT` can do with a board. Each reports in its Outcome what came of it.
struct BoardAction {
    std::string_view key;
    std::string_view help;
    Result<Outcome> (*run)(Conversation&, const BoardOptions&);
};

[[nodiscard]] std::span<const BoardAction> board_actions();

/// The longest a single fire may be.
inline constexpr int most_fire_ms = 10'000;

// board_report.cpp: what a board says.
[[nodiscard]] Result<Outcome> report_identity(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> report_status(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> report_log(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> report_latency(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> report_ports(const BoardOptions& options);

// board_load.cpp: its table, to and fro.
[[nodiscard]] Result<Outcome> load_table(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> read_table(Conversation& board, const BoardOptions& options);

// board_fire.cpp: what moves.
[[nodiscard]] Result<Outcome> fire_output(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> run_sequence(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> stop_board(Conversation& board, const BoardOptions& options);
[[nodiscard]] Result<Outcome> go_on(Conversation& board, const BoardOptions& options);

/// The image that the board of a show gets. Error: the show, or what a board cannot play.
[[nodiscard]] Result<BoardImage> image_for(const BoardOptions& options, const std::string& show,
                                           Outcome& outcome);

}  // namespace gasp
