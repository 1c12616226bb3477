// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/bench/audition/monitor.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gasp::bench {

/// What a mix sounded like in a recording: its whole seconds, sample by sample the same, and the frames at
/// which they were found.
class Alignment {
  public:
    /// Both stereo, 16 bit, at 48 kHz; the mix with its fade at the start.
    Alignment(const Recording& recording, std::span<const std::int16_t> mix);

    [[nodiscard]] bool found() const { return !seconds_.empty(); }
    /// Seconds of the mix in which the recording differs from it or has a hole.
    [[nodiscard]] int broken() const { return broken_; }
    /// The frame of the mix heard at a time of the steady clock; empty outside the seconds found whole.
    [[nodiscard]] std::optional<double> frame_at(std::int64_t time_us) const;

  private:
    struct Second {
        std::int64_t recorded = 0;
        std::int64_t mixed = 0;
        double began_us = 0.0;  ///< of the steady clock, as heard
    };
    std::vector<Second> seconds_;
    int broken_ = 0;
};

}  // namespace gasp::bench
