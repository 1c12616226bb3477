// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/power_together.hpp"

#include "core/schedule/circuit_advice.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

std::vector<PowerRun> at_once(const Show& show, std::span<const PowerRun> runs) {
    std::vector<PowerRun> together;
    std::size_t triggered = 0;
    for (const PowerRun& run : runs) {
        const Sequence* sequence = find(show, run.sequence);
        if (sequence != nullptr && sequence->kind != SequenceKind::by_hand) {
            together.push_back(run);
            triggered += sequence->kind == SequenceKind::triggered ? 1 : 0;
        }
    }
    const bool apart = show.rig.sensor.sharing == TriggerSharing::own_triggers && triggered > 1;
    return apart ? together : std::vector<PowerRun>{};
}

/// What the rig does at rest, and with every load on.
struct Ends {
    std::vector<MicroAmps> rest;  ///< of each supply
    std::vector<MicroAmps> all;
    std::vector<MicroAmps> all_surging;
    std::vector<MicroAmps> wire_rest;  ///< of each wire
    std::vector<MicroAmps> wire_all;
    std::vector<SharedLoss> loss_rest;  ///< in the order of WorstDrops::shared
    std::vector<SharedLoss> loss_all;   ///< surging
};

void add_to_wires(std::vector<MicroAmps>& wires, const LoadWay& way, MicroAmps current) {
    for (const auto& wire : way.shared) {
        if (wire) {
            wires[*wire] += current;
        }
    }
}

Ends ends_of(const PowerModel& model) {
    Ends ends{model.standing, model.standing, model.standing, {}, {}, {}, {}};
    for (const SharedWire& wire : model.wires) {
        ends.wire_rest.push_back(wire.standing);
    }
    ends.wire_all = ends.wire_rest;
    std::vector<MicroAmps> at_rest;
    std::vector<MicroAmps> surging;
    for (std::size_t load = 0; load < model.draws.size(); ++load) {
        const LoadDraw& draw = model.draws[load];
        at_rest.push_back(draw.on_at_rest ? draw.steady : 0);
        surging.push_back(draw.steady + draw.surge);
        ends.rest[draw.supply] += at_rest.back();
        ends.all[draw.supply] += draw.steady;
        ends.all_surging[draw.supply] += surging.back();
        add_to_wires(ends.wire_rest, model.ways[load], at_rest.back());
        add_to_wires(ends.wire_all, model.ways[load], draw.steady);
    }
    ends.loss_rest = shared_losses(at_rest, model.ways, model.wires);
    ends.loss_all = shared_losses(surging, model.ways, model.wires);
    return ends;
}

/// The sum of what is above rest, and no more than all at once.
template <class Most>
MicroAmps sum_of(std::span<const PowerRun> runs, MicroAmps rest, MicroAmps all, Most most) {
    MicroAmps sum = rest;
    for (const PowerRun& run : runs) {
        sum += std::max<MicroAmps>(most(*run.power) - rest, 0);
    }
    return std::min(sum, all);
}

/// At most: the parts above rest by the inequality of Minkowski, as if they always met.
double rms_of(const Show& show, std::span<const PowerRun> runs, double rest, std::size_t supply) {
    double mean = 0.0;
    double root = 0.0;
    for (const PowerRun& run : runs) {
        const CurrentCurve& curve = run.power->curves[supply];
        const double period = to_s(shortest_period(show, *find(show, run.sequence)));
        const double length = to_s(run.power->length);
        if (period > 0.0) {
            const double square = curve.square_a2s - 2.0 * rest * curve.charge_as + rest * rest * length;
            mean += std::max(curve.charge_as - rest * length, 0.0) / period;
            root += std::sqrt(std::max(square, 0.0) / period);
        }
    }
    return std::sqrt(rest * rest + 2.0 * rest * mean + root * root);
}

SupplyTogether supply_of(const Show& show, std::span<const PowerRun> runs, const Ends& ends,
                         std::size_t supply) {
    const MicroAmps rest = ends.rest[supply];
    SupplyTogether sum;
    sum.peak = sum_of(runs, rest, ends.all_surging[supply],
                      [&](const SequencePower& power) { return power.curves[supply].peak; });
    sum.steady = sum_of(runs, rest, ends.all[supply],
                        [&](const SequencePower& power) { return power.curves[supply].steady_peak; });
    sum.rms_a = rms_of(show, runs, amps(rest), supply);
    return sum;
}

/// What others add to a loss in shared wires, each at its worst, of which there are never more than all.
void add_others(Drop& drop, std::span<const PowerRun> runs, const PowerRun& own, const Ends& ends,
                std::size_t shared) {
    Drop more;
    for (const PowerRun& run : runs) {
        const Drop& most = run.power->shared[shared].most;
        const Drop& rest = ends.loss_rest[shared].most;
        if (run.sequence == own.sequence || most.volts <= rest.volts) {
            continue;
        }
        more.volts += most.volts - rest.volts;
        for (std::size_t i = 0; i < more.shared_v.size(); ++i) {
            more.shared_v[i] += most.shared_v[i] - rest.shared_v[i];
        }
    }
    const double now = drop.shared_v[0] + drop.shared_v[1];
    const double left = std::max(ends.loss_all[shared].most.volts - now, 0.0);
    const double share = more.volts > left ? left / more.volts : 1.0;
    drop.volts += share * more.volts;
    for (std::size_t i = 0; i < more.shared_v.size(); ++i) {
        drop.shared_v[i] += share * more.shared_v[i];
    }
}

CircuitTogether circuit_of(const Channel& of, std::span<const PowerRun> runs, const Ends& ends,
                           std::size_t channel) {
    CircuitTogether worst{runs.front().sequence, runs.front().power->circuits[channel]};
    double most = -1.0;
    for (const PowerRun& run : runs) {
        const PowerModel& model = run.power->model;
        const CircuitModel& circuit = model.circuits[channel];
        CircuitUse use = run.power->circuits[channel];
        if (!use.in_known_wires) {
            continue;
        }
        const auto shared =
            std::ranges::find(run.power->shared, model.ways[*circuit.load].shared, &SharedLoss::wires) -
            run.power->shared.begin();
        for (Drop* drop : {&use.in_known_wires->worst, &use.in_known_wires->starting}) {
            add_others(*drop, runs, run, ends, static_cast<std::size_t>(shared));
        }
        use.drop = use.drop ? use.in_known_wires : std::nullopt;
        if (const double volts = counting_drop(of, *use.in_known_wires).volts; volts > most) {
            most = volts;
            worst = {run.sequence, use};
        }
    }
    return worst;
}

}  // namespace

std::optional<PowerTogether> power_together(const Show& show, std::span<const PowerRun> runs) {
    const std::vector<PowerRun> met = at_once(show, runs);
    if (met.empty()) {
        return std::nullopt;
    }
    const Ends ends = ends_of(met.front().power->model);
    PowerTogether together;
    for (const PowerRun& run : met) {
        together.sequences.push_back(run.sequence);
    }
    for (std::size_t channel = 0; channel < show.rig.channels.size(); ++channel) {
        together.circuits.push_back(circuit_of(show.rig.channels[channel], met, ends, channel));
    }
    for (std::size_t wire = 0; wire < ends.wire_rest.size(); ++wire) {
        together.wire_peaks.push_back(
            sum_of(met, ends.wire_rest[wire], ends.wire_all[wire],
                   [&](const SequencePower& power) { return power.wire_peaks[wire]; }));
    }
    for (std::size_t supply = 0; supply < show.rig.supplies.size(); ++supply) {
        together.supplies.push_back(supply_of(show, met, ends, supply));
        SupplyTogether& sum = together.supplies.back();
        sum.fuse_a =
            fitting_fuse_a(sum.rms_a, ends.rest[supply], fuse_runs(met, together.sequences, supply),
                           shared_wires_bear_a(show.rig.supplies[supply], supply, together.wire_peaks));
    }
    return together;
}

const CircuitUse& worse_use(const Rig& rig, std::size_t channel, const CircuitUse& alone,
                            const std::optional<PowerTogether>& together) {
    if (!together || channel >= together->circuits.size() ||
        !together->circuits[channel].use.in_known_wires) {
        return alone;
    }
    const CircuitUse& met = together->circuits[channel].use;
    const auto lost = [&](const CircuitUse& use) {
        return counting_drop(rig.channels[channel], *use.in_known_wires).volts;
    };
    return !alone.in_known_wires || lost(met) > lost(alone) ? met : alone;
}

std::vector<FuseRun> fuse_runs(std::span<const PowerRun> runs, std::span<const SequenceId> sequences,
                               std::size_t supply) {
    std::vector<FuseRun> met;
    for (const PowerRun& run : runs) {
        if (std::ranges::find(sequences, run.sequence) != sequences.end()) {
            met.push_back({&run.power->curves[supply], run.power->length});
        }
    }
    return met;
}

}  // namespace gasp
