// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/timecode.hpp"

namespace gasp {

/// By what the ruler of a timeline is divided.
struct Grid {
    enum class Kind { seconds, frames, beats };

    Kind kind = Kind::seconds;
    FrameRate rate = FrameRate::fps_25;
    double beats_a_minute = 120.0;
    int beats_a_bar = 4;
    Micros first_beat{0};  ///< of the first bar
    bool operator==(const Grid&) const = default;
};

inline constexpr double fewest_beats_a_minute = 20.0;
inline constexpr double most_beats_a_minute = 400.0;
inline constexpr int most_beats_a_bar = 16;

/// Whether its figures are within those bounds.
[[nodiscard]] bool valid(const Grid& grid);

}  // namespace gasp
