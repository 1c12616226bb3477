// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <vector>

namespace gasp {

/// What a document must keep for the rest of core to rely on it: ids present, unique and below next_id;
/// clips, marks and cues in the order of their ids; every reference to something that exists; names not empty
/// and unique among actuators, channels, boards and sequences; figures finite and within the range of their
/// field; times within 0..24 h, lengths above 0; flashes above 0 and at most 1000 Hz, duty within 1..99 %;
/// sound file paths relative and inside the show's folder. Returns every breach, `where` naming thing and
/// field; empty when valid.
[[nodiscard]] std::vector<Error> breaches(const Show& show);

/// The longest sequence, and the latest moment of anything in one.
inline constexpr Micros longest_sequence = std::chrono::hours{24};

/// True when the path is relative and no part of it is "..", empty or a drive: joined to the show's folder it
/// stays inside.
[[nodiscard]] bool stays_inside(std::string_view path);

}  // namespace gasp
