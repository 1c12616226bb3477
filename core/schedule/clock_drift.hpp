// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/schedule.hpp"
#include "core/show/show.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// How far two clocks that started together may be apart at a change they must agree on.
struct ClockDrift {
    BoardId board;
    std::optional<BoardId> other;  ///< the other board; none: the player of the sound
    Micros at{0};                  ///< when the change is
    Figure drift_ms;               ///< at most; blank where a clock's figure is
};

/// The drift of each two boards that both switch something in the sequence, at the last change of either;
/// then of each such board and the sound, at its last change while the sound plays. Each clock may be off by
/// its ppm either way, so that theirs add up: drift = (ppm + ppm) x 1e-6 x at.
[[nodiscard]] std::vector<ClockDrift> clock_drifts(const Show& show, const Sequence& sequence,
                                                   const Schedule& schedule);

}  // namespace gasp
