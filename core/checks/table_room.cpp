// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/table_room.hpp"

#include "core/checks/wording.hpp"
#include "core/table/image_room.hpp"

#include <utility>

namespace gasp {
namespace {

constexpr std::string_view name = "table_room";

Finding too_large(const Board& board, const ImageRoom& room, Place place) {
    Finding finding{name, Severity::stop, false, std::move(place), {}, {}, {}, {}};
    finding.what = "The table of " + quoted(board.name) + " is " + std::to_string(room.bytes - *room.has) +
                   " bytes too large for it";
    finding.figure = std::to_string(room.bytes) + " bytes";
    finding.limit = "at most " + std::to_string(*room.has) + " bytes";
    finding.remedy = what_would_fit(room);
    return finding;
}

}  // namespace

std::vector<Finding> check_table_room(const Show& show, std::span<const EventTable> tables) {
    std::vector<Finding> findings;
    for (const Board& board : show.rig.boards) {
        const ImageRoom room = image_room(show, tables, board);
        Place place;
        place.board = board.id;
        place.field = "table_bytes";
        if (room.bytes > 0 && !room.has) {
            findings.push_back(not_checked(name, "room for tables of " + quoted(board.name), place));
        } else if (!room.fits()) {
            findings.push_back(too_large(board, room, place));
        }
    }
    return findings;
}

}  // namespace gasp
