// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/stroke_command.hpp"
#include "core/show/sequence.hpp"
#include "core/units/error.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace gasp {

/// What a night needs of a sequence: the strokes of its resolved schedule.
struct NightSequence {
    SequenceId id;
    SequenceKind kind = SequenceKind::triggered;
    Micros length{0};
    std::vector<StrokeCommand> commands;  ///< in order of time
    double trigger_after_s = 0.0;         ///< from a group's arrival to its tripping this sequence
    double lockout_s = 0.0;               ///< from the start of a run; at least the run itself
    bool in_turn = false;  ///< hangs on one trigger with all others that do: a group gets the next of them
};

/// One start of a sequence. An idle one may be cut short by a group.
struct NightRun {
    std::uint32_t sequence = 0;  ///< its place among the sequences
    std::uint32_t group = 0;     ///< the arrival that tripped it; those of idle runs go on from there
    Micros begin{0};
    Micros end{0};
    bool operator==(const NightRun&) const = default;
};

/// A trigger that came during a run or its lockout.
struct Refusal {
    std::uint32_t sequence = 0;
    Micros time{0};
    bool operator==(const Refusal&) const = default;
};

struct NightRuns {
    std::vector<NightRun> runs;  ///< in order of their begin
    std::vector<Refusal> refused;
};

/// Who gets their scare. Every triggered sequence has a trigger of its own, or one trigger with those it
/// takes turns with; it trips when the group gets there, unless it is in its lockout. Idle sequences with
/// strokes go round, one after another, while nothing triggered runs, until `end`. By-hand sequences take no
/// part.
[[nodiscard]] NightRuns night_runs(std::span<const NightSequence> sequences, std::span<const Micros> arrivals,
                                   Micros end);

/// Error: an idle sequence so short that a night holds too many of it; a lockout or trigger that is no time.
[[nodiscard]] Result<void> check(std::span<const NightSequence> sequences, double hours);

/// A command of the night, of an actuator that is simulated and that it really sends elsewhere.
struct NightCommand {
    Micros time{0};
    std::uint32_t actuator = 0;  ///< its place in the model
    Coil way = Coil::out;
    std::uint32_t run = 0;      ///< its place among the runs
    std::uint32_t command = 0;  ///< its place in the sequence; `cut` where a group cuts an idle run short
    static constexpr std::uint32_t cut = 0xffffffff;
    bool operator==(const NightCommand&) const = default;
};

/// How an actuator of the model behaves between strokes.
struct Rest {
    bool out = false;      ///< where it stands at the night's opening
    bool returns = true;   ///< a one-coil valve: it goes to rest when its run is cut
    Micros settles_in{0};  ///< after a command all is quiet again
};

/// Of every actuator of the model, in its order.
[[nodiscard]] std::vector<Rest> rests(const Show& show, const AirModel& model);

/// Every command of the runs, in order of time. Those that send an actuator where it was sent last are left
/// out, as are those of actuators that the model does not have.
[[nodiscard]] std::vector<NightCommand> night_commands(std::span<const NightSequence> sequences,
                                                       std::span<const NightRun> runs, const AirModel& model,
                                                       std::span<const Rest> rests);

/// Strokes that overlap or follow before all is quiet again: commands [first, last) of the night.
struct Bout {
    std::size_t first = 0;
    std::size_t last = 0;
    Micros begin{0};
    Micros end{0};  ///< all is quiet again
    bool operator==(const Bout&) const = default;
};

[[nodiscard]] std::vector<Bout> bouts(std::span<const NightCommand> commands, std::span<const Rest> rests);

}  // namespace gasp
