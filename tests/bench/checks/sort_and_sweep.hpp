// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/cue_fault.hpp"

#include <vector>

namespace gasp::bench {

/// The plain way to the same faults of steady cues on NO contacts: one std::sort by channel and begin, then
/// sweeps. What the product's own way is timed against.
[[nodiscard]] std::vector<CueFault> sort_and_sweep(const Show& show, const Sequence& sequence);

}  // namespace gasp::bench
