// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/cue_fault.hpp"
#include "core/show/rig.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace gasp {

/// For each channel of the rig, the places of those it must never be on together with: those it or they name,
/// and the other coil of the same actuator.
[[nodiscard]] std::vector<std::vector<std::size_t>> exclusive_places(const Rig& rig);

/// A channel and the stretches in which its load has power, in order and apart.
struct PoweredChannel {
    ChannelId channel;
    std::span<const OwnedDwell> stretches;
};

/// Appends a fault for each pair of stretches in which both have power. `a` stands before `b` in the rig.
void find_both_powered(const PoweredChannel& a, const PoweredChannel& b, std::vector<CueFault>& faults);

}  // namespace gasp
