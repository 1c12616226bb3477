// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/table/image_room.hpp"
#include "ui/editor/board_talk.hpp"

#include <atomic>
#include <cstdint>
#include <functional>
#include <optional>
#include <vector>

namespace gasp {

// The table that a board of the show is to have. Nothing here waits for the window.

struct WantedTable {
    std::optional<std::uint32_t> crc;  ///< none: not made yet, or it cannot be
    ImageRoom room;
};

/// The table of the show as it is now.
[[nodiscard]] WantedTable wanted_table(const Show& show, BoardId board);

/// What a load took, and the CRC by which the table is known again; or what stood against it.
struct BoardLoad {
    std::optional<LoadReport> report;
    std::uint32_t crc = 0;
    std::vector<Finding> stops;  ///< of severity stop, those of the sound aside; nothing was loaded
};

/// Makes the table and loads it, but where stop findings stand against it only `despite_stops`.
[[nodiscard]] Result<BoardLoad> load_board(const Show& show, BoardId board, const BoardTalk::Loader& loader,
                                           bool despite_stops, const std::atomic<bool>& cancel,
                                           const std::function<void(double share)>& progress);

}  // namespace gasp
