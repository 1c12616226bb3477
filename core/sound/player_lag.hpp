// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <filesystem>
#include <span>
#include <vector>

namespace gasp {

struct Knock;

/// How late a sound player is, as heard.
struct HeardLag {
    double lag_ms = 0.0;          ///< the middle one of the starts'
    double spread_ms = 0.0;       ///< from the earliest to the latest
    std::vector<double> each_ms;  ///< in the order of the recording
};

/// How long a start may have been quiet before its click, and how late its sound may be.
inline constexpr double quiet_before_start_s = 2.0;

/// The lag in the knocks of a recording of runs: each start is a click (a relay, a button) after at least two
/// seconds without any, and the next knock within two seconds is the first sound, which lies `first_sound`
/// after the head of the file that was played. Error: no start with a sound after it, or a sound that came
/// before it could have.
[[nodiscard]] Result<HeardLag> lag_of(std::span<const Knock> knocks, Micros first_sound);

/// The same of a recording, by find_knocks(). Error: as that too.
[[nodiscard]] Result<HeardLag> lag_in(const std::filesystem::path& recording, Micros first_sound);

}  // namespace gasp
