// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/sequence_run.hpp"

#include "core/air/model/blank_field.hpp"
#include "core/air/run/travel.hpp"
#include "core/schedule/cue_spans.hpp"

#include <algorithm>
#include <utility>

namespace gasp {
namespace {

bool moves(std::span<const StrokeCommand> commands, ActuatorId actuator) {
    return std::ranges::find(commands, actuator, &StrokeCommand::actuator) != commands.end();
}

FigureMotion motion_of(const Show& show, const Actuator& actuator, const SequenceRun& run,
                       const AirModel& model) {
    FigureMotion motion;
    motion.actuator = actuator.id;
    const ActuatorRun* simulated = run.air.run ? run.air.run->find(actuator.id) : nullptr;
    if (simulated != nullptr) {
        motion.curve = simulated->motion;
    }
    if (simulated != nullptr || (model.find(actuator.id) != nullptr && !moves(run.commands, actuator.id))) {
        motion.simulated = motion.out_known = motion.back_known = true;
    }
    if (motion.curve.points.empty()) {
        const Travel stated = travel(actuator, run.commands, rests_out(show, actuator));
        motion.curve = motion_of(stated);
        motion.out_known = motion.out_known || stated.out_stated;
        motion.back_known = motion.back_known || stated.back_stated;
    }
    return motion;
}

void note_what_lacks(SequenceAir& air, const AirModel& model, std::span<const StrokeCommand> commands) {
    if (commands.empty()) {
        return;
    }
    std::ranges::copy_if(model.missing, std::back_inserter(air.missing), [&](const BlankField& field) {
        return !field.actuator || moves(commands, *field.actuator);
    });
    air.impossible.insert(air.impossible.end(), model.impossible.begin(), model.impossible.end());
}

/// The simulation of these commands; nothing where it cannot be had, with the reason in `why`.
std::optional<AirRun> play(AirMemo& memo, std::span<const StrokeCommand> commands, Micros length,
                           const AirOptions& options, std::vector<Error>& why) {
    if (!(memo.model().plant.set_pressure > 0.0)) {
        return {};
    }
    Result<AirRun> run = memo.run(0, commands, length, options);
    if (!run) {
        why.push_back(run.error());
        return {};
    }
    return std::move(*run);
}

}  // namespace

const FigureMotion* SequenceAir::motion_of(ActuatorId id) const {
    const auto found = std::ranges::find(motions, id, &FigureMotion::actuator);
    return found != motions.end() ? &*found : nullptr;
}

const PlacedStrike* SequenceRun::strike_of(CueId cue) const {
    const auto found = std::ranges::lower_bound(strikes, cue, {}, &PlacedStrike::cue);
    return found != strikes.end() && found->cue == cue ? &*found : nullptr;
}

AirOptions start_of_run(const Show& show) {
    AirOptions options;
    for (const Actuator& actuator : show.rig.actuators) {
        if (rests_out(show, actuator)) {
            options.out_at_start.push_back(actuator.id);
        }
    }
    return options;
}

SequenceRun work_out(const Show& show, const Sequence& sequence, AirMemo& memo) {
    memo.take(show);
    const AirOptions options = start_of_run(show);
    SequenceRun run;
    if (has_strikes(sequence)) {
        run.strikes =
            place_strikes(show, sequence, [&](std::span<const StrokeCommand> commands, Micros length) {
                std::vector<Error> said_later;
                return play(memo, commands, length, options, said_later);
            });
        run.placed = placed(sequence, run.strikes);
    }
    run.schedule = resolve(show, run.played(sequence));
    run.commands = stroke_commands(show, run.schedule);
    note_what_lacks(run.air, memo.model(), run.commands);
    run.air.receiver_missing = blanks_of_receiver(show.rig.air_plant);
    run.air.run = play(memo, run.commands, run.schedule.length, options, run.air.impossible);
    run.power = sequence_power(show, run.schedule);
    for (const Actuator& actuator : show.rig.actuators) {
        run.air.motions.push_back(motion_of(show, actuator, run, memo.model()));
    }
    return run;
}

void add_bands(SequenceRun& run, const Show& show, AirMemo& memo) {
    if (!run.air.run || run.air.run->strokes.empty() || !run.air.bands.empty()) {
        return;
    }
    Result<std::vector<StrokeBand>> bands =
        memo.bands(show, *run.air.run, run.commands, run.schedule.length, start_of_run(show));
    if (bands) {
        run.air.bands = std::move(*bands);
    } else {
        run.air.impossible.push_back(bands.error());
    }
}

}  // namespace gasp
