// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/night_power.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace gasp {
namespace {

double groups_of(const NightPlan& plan) {
    if (!plan.arrivals_s.empty()) {
        return static_cast<double>(plan.arrivals_s.size());
    }
    return plan.groups_by_hour.empty()
               ? plan.groups_per_h.value_or(0.0) * *plan.hours
               : std::accumulate(plan.groups_by_hour.begin(), plan.groups_by_hour.end(), 0.0);
}

}  // namespace

std::optional<NightUse> night_use(const Show& show) {
    const NightPlan& plan = show.night;
    if (!plan.hours || (!plan.groups_per_h && plan.groups_by_hour.empty() && plan.arrivals_s.empty())) {
        return std::nullopt;
    }
    const double night_s = *plan.hours * 3600.0;
    const double groups = groups_of(plan);
    NightUse night{Micros{std::llround(night_s * 1e6)}, {}};
    double triggered = 0.0;
    for (const Sequence& sequence : show.sequences) {
        triggered += sequence.kind == SequenceKind::triggered ? 1.0 : 0.0;
    }
    const bool in_turn = show.rig.sensor.sharing == TriggerSharing::in_turn;
    double left_s = night_s;
    double idle_s = 0.0;
    for (const Sequence& sequence : show.sequences) {
        double runs = 0.0;
        if (sequence.kind == SequenceKind::triggered) {
            const double share = in_turn ? groups / triggered : groups;
            runs = std::min(share, night_s / std::max(to_s(shortest_period(show, sequence)), 1e-3));
            left_s -= runs * to_s(sequence.length);
        } else if (sequence.kind == SequenceKind::idle) {
            idle_s += to_s(sequence.length);
        }
        night.runs.push_back(runs);
    }
    for (std::size_t i = 0; i < show.sequences.size(); ++i) {
        if (show.sequences[i].kind == SequenceKind::idle && idle_s > 0.0) {
            night.runs[i] = std::max(left_s, 0.0) / idle_s;
        }
    }
    return night;
}

NightPower night_power(const Show& show, const NightUse& night,
                       std::span<const SequencePower* const> powers) {
    NightPower sum;
    const double night_s = to_s(night.length);
    for (std::size_t supply = 0; supply < show.rig.supplies.size(); ++supply) {
        double charge = 0.0;
        double square = 0.0;
        double rest_s = night_s;
        for (std::size_t i = 0; i < powers.size(); ++i) {
            charge += night.runs[i] * powers[i]->curves[supply].charge_as;
            square += night.runs[i] * powers[i]->curves[supply].square_a2s;
            rest_s -= night.runs[i] * to_s(powers[i]->length);
        }
        const double rest = powers.empty() ? 0.0 : powers.front()->rest_a(supply);
        charge += rest * std::max(rest_s, 0.0);
        square += rest * rest * std::max(rest_s, 0.0);
        sum.average_a.push_back(night_s > 0.0 ? charge / night_s : 0.0);
        sum.rms_a.push_back(night_s > 0.0 ? std::sqrt(square / night_s) : 0.0);
    }
    for (std::size_t channel = 0; channel < show.rig.channels.size(); ++channel) {
        double operations = 0.0;
        for (std::size_t i = 0; i < powers.size(); ++i) {
            operations += night.runs[i] * static_cast<double>(powers[i]->circuits[channel].operations);
        }
        sum.operations.push_back(operations);
    }
    return sum;
}

}  // namespace gasp
