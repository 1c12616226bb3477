// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_power.hpp"
#include "core/units/quantity.hpp"

#include <optional>

namespace gasp {

/// What is left at a load, and what would do for its circuit. Whatever is blank leaves out what rests on it.
struct CircuitAdvice {
    std::optional<Drop> drop;        ///< at its worst moment; of a coil, while it pulls in
    std::optional<double> left_v;    ///< of the supply's voltage, then
    std::optional<double> least_v;   ///< wanted: what its `least_percent` says, else all but a tenth
    std::optional<double> wire_mm2;  ///< smallest standard wire that leaves it that and bears the fuse
    std::optional<double> fuse_a;    ///< smallest standard fuse for its current and inrush
    /// Its supply can harm who touches it: wire and fuse are for a licensed electrician to choose, not here.
    bool licensed = false;
};

/// The drop that counts for a load: a coil has to pull in, whatever else works all the while.
[[nodiscard]] const Drop& counting_drop(const Channel& channel, const WorstDrop& drop);

/// Whether it is known what a load draws as it starts: where it surges, how much and for how long.
[[nodiscard]] bool inrush_known(const Channel& channel);

/// A tenth of the voltage lost is the most for loads that are not critical (practice on boats, ABYC).
[[nodiscard]] CircuitAdvice advise(const Rig& rig, std::size_t channel, const PowerModel& model,
                                   const CircuitUse& use, UnitSystem units);

/// The same over a sequence.
[[nodiscard]] CircuitAdvice advise(const Rig& rig, std::size_t channel, const SequencePower& power,
                                   UnitSystem units);

/// A supply that is within its share and bears what starts, in whole amperes; none where a current is not
/// known.
[[nodiscard]] std::optional<double> least_supply_a(const Rig& rig, std::size_t supply,
                                                   const SequencePower& power);

/// The share of its rating a supply is planned with: 80 % where blank (common practice, no source).
[[nodiscard]] double planned_share(const Supply& supply);

}  // namespace gasp
