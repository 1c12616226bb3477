// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <string_view>
#include <vector>

namespace gasp {

/// What a document must keep for the rest of core to rely on it: at least one sequence; ids above 0, below
/// next_id and unique among things of one kind; clips, marks and cues in the order of their ids; every
/// reference to something that exists; names not blank and unique among actuators, channels, boards,
/// supplies and sequences; figures within the range of their field; whatever is on a ruler begins and ends
/// within 0..24 h, lengths above 0; sound lanes 1 to 8 and fades within their clip; flashes above 0 and at
/// most 1000 Hz, duty within 1..99 %; sound file paths relative and inside the show's folder. Returns every
/// breach, `where` naming thing and field; empty when valid. O(n log n).
[[nodiscard]] std::vector<Error> breaches(const Show& show);

/// The longest sequence, and the latest moment of anything in one.
inline constexpr Micros longest_sequence = std::chrono::hours{24};

/// True when the path is relative and no part of it is "..", ".", empty or a drive, and it holds no backslash
/// and no control character: joined to the show's folder it stays inside.
[[nodiscard]] bool stays_inside(std::string_view path);

}  // namespace gasp
