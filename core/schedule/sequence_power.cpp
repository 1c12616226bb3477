// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/sequence_power.hpp"

#include <algorithm>
#include <cmath>
#include <unordered_map>

namespace gasp {
namespace {

CircuitUse use_of(const std::vector<Dwell>& driven, Contact contact, Micros length) {
    CircuitUse use;
    const auto take = [&](Micros begin, Micros end) {
        use.on += end - begin;
        if (end - begin > use.longest_on) {
            use.longest_on = end - begin;
            use.longest_begin = begin;
        }
    };
    use.operations = driven.size();
    if (contact == Contact::normally_open) {
        for (const Dwell& dwell : driven) {
            take(dwell.begin, dwell.end);
        }
        return use;
    }
    Micros since{0};
    for (const Dwell& dwell : driven) {
        take(since, dwell.begin);
        since = dwell.end;
    }
    take(since, length);
    return use;
}

}  // namespace

double SequencePower::rest_a(std::size_t supply) const {
    MicroAmps current = model.standing[supply];
    for (const LoadDraw& draw : model.draws) {
        current += draw.on_at_rest && draw.supply == supply ? draw.steady : 0;
    }
    return amps(current);
}

double SequencePower::average_a(std::size_t supply, Micros period) const {
    const double rest_s = to_s(std::max(period - length, Micros{0}));
    const double all_s = to_s(length) + rest_s;
    return all_s > 0.0 ? (curves[supply].charge_as + rest_a(supply) * rest_s) / all_s : 0.0;
}

double SequencePower::rms_a(std::size_t supply, Micros period) const {
    const double rest_s = to_s(std::max(period - length, Micros{0}));
    const double all_s = to_s(length) + rest_s;
    const double rest = rest_a(supply);
    return all_s > 0.0 ? std::sqrt((curves[supply].square_a2s + rest * rest * rest_s) / all_s) : 0.0;
}

std::vector<LoadSwitch> load_switches(const PowerModel& model, const Schedule& schedule) {
    std::unordered_map<ChannelId, std::size_t> places;
    for (std::size_t place = 0; place < schedule.channels.size(); ++place) {
        if (model.circuits[place].load) {
            places.insert({schedule.channels[place].id, place});
        }
    }
    std::vector<LoadSwitch> switches;
    switches.reserve(schedule.events.size());
    for (const SwitchEvent& event : schedule.events) {
        const auto found = places.find(event.channel);
        if (found == places.end()) {
            continue;
        }
        const CircuitModel& circuit = model.circuits[found->second];
        const bool on = load_on(schedule.channels[found->second].contact, event.driven);
        switches.push_back({event.time, *circuit.load, on});
        for (const std::uint32_t load : circuit.further) {
            switches.push_back({event.time, load, on});
        }
    }
    return switches;
}

SequencePower sequence_power(const Show& show, const Schedule& schedule) {
    SequencePower power;
    power.model = power_model(show.rig);
    power.length = schedule.length;
    const std::vector<LoadSwitch> switches = load_switches(power.model, schedule);
    power.curves = current_curves(power.model.draws, power.model.standing, switches, schedule.length);
    WorstDrops worst =
        worst_drops(power.model.draws, power.model.ways, power.model.wires, switches, schedule.length);
    const auto dwells = dwells_by_channel(schedule);
    for (std::size_t place = 0; place < dwells.size(); ++place) {
        const CircuitModel& circuit = power.model.circuits[place];
        CircuitUse use = use_of(dwells[place], schedule.channels[place].contact, schedule.length);
        if (circuit.load) {
            use.in_known_wires = worst.loads[*circuit.load];
        }
        if (circuit.way_known) {
            use.drop = use.in_known_wires;
        }
        power.circuits.push_back(use);
    }
    power.wire_peaks = std::move(worst.wire_peaks);
    power.shared = std::move(worst.shared);
    return power;
}

Micros shortest_period(const Show& show, const Sequence& sequence) {
    const Figure& lockout = show.rig.sensor.lockout_s;
    const bool locked = sequence.kind == SequenceKind::triggered && lockout;
    return locked ? std::max(sequence.length, from_ms(*lockout * 1000.0)) : sequence.length;
}

}  // namespace gasp
