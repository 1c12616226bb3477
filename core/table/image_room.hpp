// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/table/event_table.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// What the image of one board takes, and what the board has room for.
struct ImageRoom {
    struct OfSequence {
        std::string name;
        std::size_t events = 0;
    };
    std::size_t bytes = 0;              ///< of the whole image; 0: no channel has an output of the board
    std::optional<std::size_t> has;     ///< Board::table_bytes; none: nobody has said
    std::vector<OfSequence> sequences;  ///< in the order of the tables

    [[nodiscard]] bool fits() const { return !has || bytes <= *has; }
    [[nodiscard]] std::size_t events() const;
};

/// How much of a board these tables take, whether or not an image can be made of them.
[[nodiscard]] ImageRoom image_room(const Show& show, std::span<const EventTable> tables, const Board& board);

/// What would fit, as a remedy: "4 of its 6 events would fit (6 in "night"): ...". Requires: it does not fit.
[[nodiscard]] std::string what_would_fit(const ImageRoom& room);

}  // namespace gasp
