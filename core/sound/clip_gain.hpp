// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"

#include <cstdint>

namespace gasp {

/// Frames from the start to a moment at a rate, to the nearest.
[[nodiscard]] std::int64_t frames_at(Micros time, int rate);

/// By how much a clip is louder at each moment: its gain, and its fades, in which the level rises or falls
/// evenly with time. What is heard, exported, measured and drawn takes it from here.
class ClipGain {
  public:
    /// At a rate of the caller's; at 1 000 000 a frame is a microsecond.
    ClipGain(const SoundClip& clip, int rate);

    /// The frames of the sequence in which it is heard: [start, end).
    [[nodiscard]] std::int64_t start() const { return start_; }
    [[nodiscard]] std::int64_t end() const { return end_; }
    /// The factor of a frame of the sequence within the clip. In a fade it is the share of it gone by, or
    /// still to go, so that a fade-out and a fade-in of one length over one another add up to 1.
    [[nodiscard]] float at(std::int64_t frame) const;
    /// Whether all frames from one to before another have the same factor.
    [[nodiscard]] bool even(std::int64_t from, std::int64_t to) const {
        return from >= start_ + in_ && to <= end_ - out_;
    }

  private:
    std::int64_t start_;
    std::int64_t end_;
    std::int64_t in_;   ///< frames of the fade-in
    std::int64_t out_;  ///< and of the fade-out
    double gain_;
};

}  // namespace gasp
