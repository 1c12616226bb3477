// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <optional>

namespace gasp {

/// A stretch of frames, [begin, end).
struct FrameSpan {
    std::int64_t begin = 0;
    std::int64_t end = 0;
    bool operator==(const FrameSpan&) const = default;
};

/// In which order the frames of a sequence are played: from `start` to its end, or round and round in a loop.
/// A start before the loop runs into it; one past the loop's end begins at the loop's beginning.
class PlayPath {
  public:
    /// A loop is cut to the sequence; one shorter than `shortest_loop` then is none.
    PlayPath(std::int64_t start, std::int64_t end, std::optional<FrameSpan> loop);

    static constexpr std::int64_t shortest_loop = 480;

    /// The next stretch without a jump, at most `most` frames; empty at the end.
    [[nodiscard]] FrameSpan next(std::int64_t most);

    /// The frame that comes next.
    [[nodiscard]] std::int64_t frame() const { return frame_; }

  private:
    std::int64_t frame_;
    std::int64_t end_;
    std::optional<FrameSpan> loop_;
};

}  // namespace gasp
