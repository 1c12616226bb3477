// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace RubberBand {
class RubberBandStretcher;
}

namespace gasp {

/// Makes stereo sound last a whole number of times as long, at the pitch it has: to listen where a word
/// begins. Frame n put in is heard at frame n * times. Not thread-safe, and not for a sound device's
/// callback: it allocates.
class SlowSound {
  public:
    /// Requires: rate > 0, times >= 2.
    SlowSound(int rate, int times);
    SlowSound(SlowSound&&) noexcept;
    SlowSound& operator=(SlowSound&&) noexcept;
    ~SlowSound();

    [[nodiscard]] int times() const { return times_; }
    /// Interleaved. Requires: end() was not called.
    void put(std::span<const float> stereo);
    /// Nothing more is coming: what is left becomes ready.
    void end();
    /// Frames put in so far.
    [[nodiscard]] std::int64_t taken_in() const { return taken_in_; }
    /// Frames that take() can give now.
    [[nodiscard]] std::int64_t ready() const;
    /// The next frames, interleaved. Requires: no more than ready().
    void take(std::span<float> stereo);

  private:
    void feed(std::span<const float> stereo, bool last);
    void drop_delay();

    std::unique_ptr<RubberBand::RubberBandStretcher> stretcher_;
    int times_;
    std::int64_t delay_;  ///< output frames still to be dropped, which stand before the first
    std::int64_t taken_in_ = 0;
    std::int64_t given_ = 0;
    bool ended_ = false;
    std::vector<float> left_;
    std::vector<float> right_;
};

}  // namespace gasp
