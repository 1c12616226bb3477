// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/link/conversation.hpp"
#include "core/show/show.hpp"
#include "ui/panels/board_load.hpp"
#include "ui/panels/figure_list.hpp"

#include <QString>

#include <optional>
#include <vector>

namespace gasp {

// What is said of a connected board, in the lines of its panel.

/// Who it is and what it holds, beside what it should.
[[nodiscard]] std::vector<FigureLine> identity_lines(const BoardIdentity& board, const WantedTable& wanted);

/// Why a table was not loaded: what stands against it, the first few named.
[[nodiscard]] QString stops_line(const std::vector<Finding>& stops);

/// How it stands; `tick` is that of its table.
[[nodiscard]] std::vector<FigureLine> status_lines(const BoardStatus& status, const Show& show, Micros tick);

[[nodiscard]] FigureLine latency_line(const LinkLatency& latency);

/// How far the sound is ahead of the run it goes with.
[[nodiscard]] FigureLine sound_line(Micros ahead);

/// Time since power-up: "2 h 03 min 07 s".
[[nodiscard]] QString up_time(std::uint32_t seconds);

}  // namespace gasp
