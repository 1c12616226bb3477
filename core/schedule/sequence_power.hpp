// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/power_model.hpp"
#include "core/schedule/schedule.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// What a sequence asks of one circuit.
struct CircuitUse {
    Micros on{0};                   ///< the load has power for so long, in all
    Micros longest_on{0};           ///< and at a stretch
    Micros longest_begin{0};        ///< where that begins
    std::size_t operations = 0;     ///< times its relay or transistor is driven
    std::optional<WorstDrop> drop;  ///< none where the load is never on, or its current or wires not known
    std::optional<WorstDrop> in_known_wires;  ///< the same, what is not known of its wires taken for nothing
};

/// What the rig's electrics do over a sequence.
struct SequencePower {
    PowerModel model;
    Micros length{0};
    std::vector<CurrentCurve> curves;   ///< of each supply, in the order of the rig
    std::vector<CircuitUse> circuits;   ///< of each channel, likewise
    std::vector<MicroAmps> wire_peaks;  ///< of each of model.wires, surges left out
    std::vector<SharedLoss> shared;     ///< as worst_drops finds it

    /// What a supply gives while the show rests: what stands always, and loads on normally closed contacts.
    [[nodiscard]] double rest_a(std::size_t supply) const;
    /// Over the sequence and a rest up to `period` after its begin.
    [[nodiscard]] double average_a(std::size_t supply, Micros period) const;
    [[nodiscard]] double rms_a(std::size_t supply, Micros period) const;
};

/// The switchings of the loads of a rig that a schedule makes, in order of time.
[[nodiscard]] std::vector<LoadSwitch> load_switches(const PowerModel& model, const Schedule& schedule);

[[nodiscard]] SequencePower sequence_power(const Show& show, const Schedule& schedule);

/// How soon a sequence may begin again: at the end of its lockout if it is triggered, and not before its own
/// end.
[[nodiscard]] Micros shortest_period(const Show& show, const Sequence& sequence);

}  // namespace gasp
