// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/piece_map.hpp"

#include <algorithm>

namespace gasp {

void PieceMap::add(Piece piece) {
    while (!pieces_.empty() && pieces_.back().from >= piece.from) {
        pieces_.pop_back();
    }
    pieces_.push_back(piece);
}

std::optional<PieceMap::Value> PieceMap::at(std::int64_t frame) const {
    const auto after = std::upper_bound(pieces_.begin(), pieces_.end(), frame,
                                        [](std::int64_t f, const Piece& piece) { return f < piece.from; });
    if (after == pieces_.begin()) {
        return std::nullopt;
    }
    const Piece& piece = *(after - 1);
    return Value{piece.to + (piece.moving ? (frame - piece.from) / piece.times : 0), piece.tag};
}

void PieceMap::forget_before(std::int64_t frame) {
    while (pieces_.size() > 1 && pieces_[1].from <= frame) {
        pieces_.pop_front();
    }
}

}  // namespace gasp
