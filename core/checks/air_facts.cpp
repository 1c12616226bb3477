// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/air_facts.hpp"

#include "core/air/model/flow.hpp"

#include <algorithm>
#include <cmath>
#include <set>

namespace gasp {
namespace {

constexpr Micros hour = std::chrono::hours{1};
constexpr Micros alone_apart{20'000'000};
/// A stroke's draw is spread over this: what matters to the compressor is how much, not how fast.
constexpr double draw_takes_s = 0.5;

void take_alone(AirFacts& facts, AirMemo& memo, const Show& show, ActuatorId id) {
    const StrokeCommand both[] = {{Micros{0}, id, Coil::out}, {alone_apart, id, Coil::back}};
    const PlantModel& plant = memo.model().plant;
    AirOptions full;
    if (plant.cut_out > 0.0) {
        full.receiver_kpa_gauge = (plant.cut_out - plant.ambient_pressure) * 1e-3;
    }
    const Result<AirRun> run = memo.run(0, both, 2 * alone_apart, full);
    if (!run) {
        return;
    }
    const auto bands = memo.bands(show, *run, both, 2 * alone_apart, full);
    for (std::size_t i = 0; i < run->strokes.size(); ++i) {
        const Stroke& stroke = run->strokes[i];
        AirFacts::Alone& alone = facts.alone[{id, stroke.command.way}];
        alone.strike_s = stroke.strike_s();
        alone.arrival_s = stroke.reached_s[3];
        if (bands && (*bands)[i].reached_s[3] && std::isfinite((*bands)[i].reached_s[3]->high)) {
            alone.latest_s = (*bands)[i].reached_s[3]->high;
            alone.measured = (*bands)[i].measured;
        }
    }
}

}  // namespace

std::optional<Repeated> AirFacts::repeat(const Show& show, const Sequence& sequence, const AirModel& model,
                                         const AirRun& run) {
    const bool triggered = sequence.kind == SequenceKind::triggered;
    const PlantModel& plant = model.plant;
    if (sequence.kind == SequenceKind::by_hand || std::isinf(plant.receiver) || !(plant.cut_out > 0.0) ||
        (triggered && !show.rig.sensor.lockout_s) || run.strokes.empty()) {
        return {};
    }
    Micros period = sequence.length;
    if (triggered) {
        period = std::max(period, from_ms(*show.rig.sensor.lockout_s * 1000.0));
    }
    if (period <= Micros{0}) {
        return {};
    }
    return repeat_every(period, model, run);
}

Repeated AirFacts::repeat_every(Micros period, const AirModel& model, const AirRun& run) {
    Repeated repeated;
    repeated.period = period;
    repeated.length = std::max(hour, repeated.period);
    std::vector<DrawStep> steps;
    for (Micros begin{0}; begin < repeated.length; begin += repeated.period) {
        for (const Stroke& stroke : run.strokes) {
            const double rate = stroke.left_receiver_l * 1e-3 * reference_density / draw_takes_s;
            const double at = to_s(begin + stroke.command.time);
            steps.push_back({at, rate});
            steps.push_back({at + draw_takes_s, -rate});
        }
    }
    repeated.receiver =
        receiver_line(model.plant, model.plant.cut_in, std::move(steps), to_s(repeated.length));
    return repeated;
}

AirFacts air_facts(const Show& show, const Sequence& sequence, const SequenceRun& run, AirMemo& memo) {
    AirFacts facts;
    if (!run.air.run || run.air.run->strokes.empty()) {
        return facts;
    }
    const PlantModel& plant = memo.model().plant;
    if (plant.cut_out > 0.0) {
        AirOptions full = start_of_run(show);
        full.receiver_kpa_gauge = (plant.cut_out - plant.ambient_pressure) * 1e-3;
        Result<AirRun> best = memo.run(0, run.commands, run.schedule.length, full);
        if (best) {
            facts.at_cut_out = std::move(*best);
        }
    }
    std::set<ActuatorId> moved;
    for (const Stroke& stroke : run.air.run->strokes) {
        moved.insert(stroke.command.actuator);
    }
    for (const ActuatorId id : moved) {
        take_alone(facts, memo, show, id);
        if (const auto first = memo.first(show, id)) {
            facts.firsts[id] = *first;
        }
    }
    const Micros longer = run.schedule.length + alone_apart;
    const AirOptions options = start_of_run(show);
    if (auto on = memo.run(0, run.commands, longer, options)) {
        if (auto bands = memo.bands(show, *on, run.commands, longer, options)) {
            facts.bands_on = std::move(*bands);
        }
        facts.played_on = std::move(*on);
    }
    const double set = (plant.set_pressure - plant.ambient_pressure) * 1e-3;
    facts.regulator_kpa_gauge = set;
    facts.lowest_receiver_kpa_gauge = run.air.run->lowest_receiver_kpa;
    if (run.air.run->lowest_receiver_kpa < set) {
        facts.stagger = stagger(show, *find(show, sequence.id), set, memo);
    }
    facts.repeated = AirFacts::repeat(show, sequence, memo.model(), *run.air.run);
    return facts;
}

}  // namespace gasp
