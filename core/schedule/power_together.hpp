// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/fuse.hpp"
#include "core/schedule/sequence_power.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// What a sequence of the show asks of the rig's electrics.
struct PowerRun {
    SequenceId sequence;
    const SequencePower* power = nullptr;
};

/// The most that a supply gives while sequences run at once.
struct SupplyTogether {
    MicroAmps peak = 0;    ///< surges and all
    MicroAmps steady = 0;  ///< surges left out
    double rms_a = 0.0;    ///< each run repeated as soon as it may be, their worst always meeting
    Figure fuse_a;         ///< the smallest standard fuse for it that the wires all share bear; none: no such
};

/// A circuit while sequences run at once.
struct CircuitTogether {
    SequenceId sequence;  ///< of those in which its load is on, the one in which it loses the most
    CircuitUse use;       ///< of that one; its drops with what the others draw as well, at their worst
};

/// What the rig's electrics do while sequences run at once.
struct PowerTogether {
    std::vector<SequenceId> sequences;
    std::vector<SupplyTogether> supplies;   ///< in the order of the rig
    std::vector<CircuitTogether> circuits;  ///< of each channel, likewise
    std::vector<MicroAmps> wire_peaks;      ///< of each of the model's wires, surges left out
};

/// Of the sequences that can run at once: triggered ones, where each has a trigger of its own, and idle ones
/// beside them. By their triggers they may begin in any order and at any distance, so that their worst
/// moments may meet: what each draws above rest adds up, and never comes to more than all loads on at once.
/// Where two drive the same channel that is more than can be. None where fewer than two triggered sequences
/// have triggers of their own: the trigger ends an idle run, and one trigger in turn starts nothing while a
/// run is on. With several, each board hears its own alone. `runs`: of the sequences of the show, or some of
/// them.
[[nodiscard]] std::optional<PowerTogether> power_together(const Show& show, std::span<const PowerRun> runs);

/// Of a circuit: its use by a sequence, or the one while sequences run at once if that loses more.
[[nodiscard]] const CircuitUse& worse_use(const Rig& rig, std::size_t channel, const CircuitUse& alone,
                                          const std::optional<PowerTogether>& together);

/// What these sequences give from a supply, as a fuse meets it. The runs must outlive it.
[[nodiscard]] std::vector<FuseRun> fuse_runs(std::span<const PowerRun> runs,
                                             std::span<const SequenceId> sequences, std::size_t supply);

}  // namespace gasp
