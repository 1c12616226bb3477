// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/air_memo.hpp"
#include "core/schedule/schedule.hpp"
#include "core/schedule/sequence_power.hpp"
#include "core/schedule/strike_placing.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// How an actuator moves over a sequence: by the simulation, or by the stated stroke times where that lacks a
/// figure.
struct FigureMotion {
    ActuatorId actuator;
    MotionCurve curve;
    bool simulated = false;
    bool out_known = false;  ///< else that way is a jump
    bool back_known = false;
};

/// What the air does over a sequence.
struct SequenceAir {
    std::optional<AirRun> run;          ///< none where the plant cannot be simulated
    std::vector<StrokeBand> bands;      ///< of run->strokes; empty until add_bands
    std::vector<FigureMotion> motions;  ///< of every actuator, in the order of the rig
    std::vector<BlankField> missing;    ///< keep the plant, or what this sequence moves, from being simulated
    /// Blank fields without which the receiver has no limit or is never filled again.
    std::vector<BlankField> receiver_missing;
    std::vector<Error> impossible;  ///< figures that cannot be, which do the same

    [[nodiscard]] const FigureMotion* motion_of(ActuatorId id) const;
};

/// A sequence worked out: the one truth that is drawn, auditioned, checked and exported.
struct SequenceRun {
    std::optional<Sequence>
        placed;  ///< the sequence with every strike turned into a start; only where any is
    std::vector<PlacedStrike> strikes;
    Schedule schedule;
    std::vector<StrokeCommand> commands;
    SequenceAir air;
    SequencePower power;

    /// `sequence`, of which this is the run, as it is played.
    [[nodiscard]] const Sequence& played(const Sequence& sequence) const {
        return placed ? *placed : sequence;
    }
    /// Null for a cue that is not placed by its strike.
    [[nodiscard]] const PlacedStrike* strike_of(CueId cue) const;
};

/// Everything but the bands. The receiver starts at cut-in, the least the switch lets it stand at. `memo`
/// keeps what may be of use for the next revision of the show.
[[nodiscard]] SequenceRun work_out(const Show& show, const Sequence& sequence, AirMemo& memo);

/// The spread of each stroke: several times the work of the rest.
void add_bands(SequenceRun& run, const Show& show, AirMemo& memo);

/// How a run of this show begins: which valves rest in the position that sends their figures out.
[[nodiscard]] AirOptions start_of_run(const Show& show);

}  // namespace gasp
