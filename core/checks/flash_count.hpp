// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace gasp {

// Flashes as WCAG 2.2, success criterion 2.3.1, counts them: a flash is a pair of opposing changes of
// luminance, and no more than three may come within any one second.

/// A lamp lights or goes dark.
struct LightChange {
    Micros time{0};
    std::uint32_t lamp = 0;
    bool lit = false;
};

/// A stretch in which every second from `begin` on, up to that which ends at `end`, has too many.
struct FlashBurst {
    Micros begin{0};
    Micros end{0};
    int flashes = 0;                   ///< most in any one second of it
    std::vector<std::uint32_t> lamps;  ///< that change in it, rising
};

inline constexpr int most_flashes_in_a_second = 3;
/// Lamps that change alike within this are seen to change as one: boards round to ticks of a few ms.
inline constexpr Micros seen_as_one{5'000};

/// Of changes in order of time, each of its lamp: nothing is known of how bright lamps are, how much of the
/// view they fill or whether they are seen together, so every change counts as one of the whole view. Linear.
[[nodiscard]] std::vector<FlashBurst> flash_bursts(std::span<const LightChange> changes);

}  // namespace gasp
