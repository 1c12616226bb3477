// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_run.hpp"

#include <cstddef>
#include <vector>

namespace gasp {

/// By how much a mouth that is no valve's comes after its output.
struct JawLeads {
    Micros open{0};
    Micros close{0};
};

/// How far the mouth on a channel is open, 0 to 1, at each of so many steps from the start of a sequence: a
/// valve's as its figure is simulated to move, any other as its output is driven, its leads later. Nothing
/// where the channel is gone.
[[nodiscard]] std::vector<float> jaw_opening(const Show& show, const SequenceRun& run, ChannelId channel,
                                             const JawLeads& leads, Micros step, std::size_t steps);

}  // namespace gasp
