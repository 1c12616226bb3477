// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_power.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The most that each supply gives over a sequence.
struct RunPeaks {
    SequenceId sequence;
    std::vector<MicroAmps> peak;  ///< surges and all, in the order of the rig
    std::vector<MicroAmps> steady;
};

[[nodiscard]] RunPeaks peaks_of(SequenceId sequence, const SequencePower& power);

/// The most that each supply gives while sequences run at once.
struct PowerTogether {
    std::vector<SequenceId> sequences;
    std::vector<MicroAmps> peak;
    std::vector<MicroAmps> steady;
};

/// Of the sequences that can run at once: triggered ones, where each has a trigger of its own. By their
/// triggers they may begin in any order and at any distance, so that their worst moments may meet: the peaks
/// above rest add up, and never come to more than all loads on at once. Where two drive the same channel that
/// is more than can be. A trigger ends an idle run, and one trigger in turn starts nothing while a run is on:
/// those never meet. None where fewer than two can. `runs`: of the sequences of the show, or some of them.
[[nodiscard]] std::optional<PowerTogether> power_together(const Show& show, std::span<const RunPeaks> runs);

}  // namespace gasp
