// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/play_path.hpp"

#include <algorithm>

namespace gasp {

PlayPath::PlayPath(std::int64_t start, std::int64_t end, std::optional<FrameSpan> loop)
    : frame_(std::clamp(start, std::int64_t{0}, std::max(std::int64_t{0}, end))),
      end_(std::max(std::int64_t{0}, end)) {
    if (!loop) {
        return;
    }
    const FrameSpan cut{std::max(std::int64_t{0}, loop->begin), std::min(loop->end, end_)};
    if (cut.end - cut.begin >= shortest_loop) {
        loop_ = cut;
        if (frame_ >= cut.end) {
            frame_ = cut.begin;
        }
    }
}

FrameSpan PlayPath::next(std::int64_t most) {
    const std::int64_t stop = loop_ ? loop_->end : end_;
    const FrameSpan span{frame_, std::min(stop, frame_ + most)};
    frame_ = loop_ && span.end == stop ? loop_->begin : span.end;
    return span;
}

}  // namespace gasp
