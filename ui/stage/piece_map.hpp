// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <deque>
#include <optional>

namespace gasp {

/// From frame `from` of one count on, another count stands at `to` and runs along with it, at a whole part of
/// its pace, or stands still.
struct Piece {
    std::int64_t from = 0;
    std::int64_t to = 0;
    bool moving = true;
    std::uint32_t tag = 0;  ///< the caller's
    int times = 1;          ///< as slow
    bool operator==(const Piece&) const = default;
};

/// Reads one count of frames off another that starts, stops and jumps against it.
class PieceMap {
  public:
    struct Value {
        std::int64_t frame = 0;
        std::uint32_t tag = 0;
        bool operator==(const Value&) const = default;
    };

    /// Requires: `from` is not before that of the piece added last; at the same `from` the later piece
    /// counts.
    void add(Piece piece);

    /// Empty before the first piece.
    [[nodiscard]] std::optional<Value> at(std::int64_t frame) const;

    /// Drops the pieces that end before `frame`.
    void forget_before(std::int64_t frame);

    [[nodiscard]] std::size_t size() const { return pieces_.size(); }

  private:
    std::deque<Piece> pieces_;
};

}  // namespace gasp
