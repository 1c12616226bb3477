// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night_runs.hpp"
#include "core/show/show.hpp"

#include <span>
#include <vector>

namespace gasp {

/// What a night's forecast needs of these sequences: each resolved, with the strokes of its valves, and the
/// sensor's lockout, none where that is blank.
[[nodiscard]] std::vector<NightSequence> night_sequences(const Show& show,
                                                         std::span<const Sequence* const> sequences);
/// Of all sequences of the show.
[[nodiscard]] std::vector<NightSequence> night_sequences(const Show& show);

}  // namespace gasp
