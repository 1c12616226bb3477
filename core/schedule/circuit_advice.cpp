// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/circuit_advice.hpp"

#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/power/fuse.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double usual_use_percent = 80.0;
constexpr double usual_least_percent = 90.0;

std::optional<double> wire_for(const Channel& channel, const CircuitAdvice& advice, double supply_v,
                               const WorstDrop& drop, double own_ohm, UnitSystem units) {
    const Circuit& circuit = channel.circuit;
    if (!circuit.wire_length_m || !channel.load_current_a) {
        return std::nullopt;
    }
    const Drop now = counting_drop(channel, drop);
    const double steady = *channel.load_current_a;
    const double own_v = now.volts - now.shared_v[0] - now.shared_v[1];
    WireTask task;
    task.carried_m = *circuit.wire_length_m * (circuit.return_path == ReturnPath::own_wire ? 2.0 : 1.0);
    task.current_a = own_ohm > 0.0 ? own_v / own_ohm : std::max(steady, circuit.inrush_a.value_or(0.0));
    task.most_drop_v = supply_v - *advice.least_v - now.shared_v[0] - now.shared_v[1];
    task.bears_a = std::max(steady, circuit.fuse_a ? *circuit.fuse_a : advice.fuse_a.value_or(0.0));
    return smallest_wire_mm2(task, units);
}

}  // namespace

const Drop& counting_drop(const Channel& channel, const WorstDrop& drop) {
    return load_kind(channel) == LoadKind::coil ? drop.starting : drop.worst;
}

bool inrush_known(const Channel& channel) {
    const Circuit& circuit = channel.circuit;
    const bool surging = circuit.inrush_a || surges(load_kind(channel));
    return !surging || (circuit.inrush_a && circuit.inrush_ms);
}

double planned_share(const Supply& supply) {
    return supply.use_percent.value_or(usual_use_percent) / 100.0;
}

CircuitAdvice advise(const Rig& rig, std::size_t channel, const PowerModel& model, const CircuitUse& use,
                     UnitSystem units) {
    CircuitAdvice advice;
    const Channel& of = rig.channels[channel];
    const Circuit& circuit = of.circuit;
    const auto place = model.circuits[channel].supply;
    advice.licensed = place && hazardous(rig.supplies[*place]);
    if (of.load_current_a && inrush_known(of) && !advice.licensed) {
        const double current = *of.load_current_a;
        const double wire_a = circuit.wire_mm2 ? ampacity_a(*circuit.wire_mm2).value_or(0.0) : 1e9;
        advice.fuse_a = fitting_fuse_a(current, circuit.inrush_a.value_or(current),
                                       circuit.inrush_ms.value_or(0.0), wire_a);
    }
    if (!place || !rig.supplies[*place].volts) {
        return advice;
    }
    const double supply_v = *rig.supplies[*place].volts;
    advice.least_v =
        circuit.volts.value_or(supply_v) * circuit.least_percent.value_or(usual_least_percent) / 100.0;
    if (use.drop) {
        advice.drop = counting_drop(of, *use.drop);
        advice.left_v = std::max(supply_v - advice.drop->volts, 0.0);
    }
    if (use.in_known_wires && !advice.licensed) {
        advice.wire_mm2 = wire_for(of, advice, supply_v, *use.in_known_wires,
                                   model.circuits[channel].wire_ohm.value_or(0.0), units);
    }
    return advice;
}

CircuitAdvice advise(const Rig& rig, std::size_t channel, const SequencePower& power, UnitSystem units) {
    return advise(rig, channel, power.model, power.circuits[channel], units);
}

std::optional<double> least_supply_a(const Rig& rig, std::size_t supply, const SequencePower& power) {
    if (!power.model.supplies[supply].complete) {
        return std::nullopt;
    }
    const CurrentCurve& curve = power.curves[supply];
    return std::ceil(
        std::max(amps(curve.steady_peak) / planned_share(rig.supplies[supply]), amps(curve.peak)));
}

}  // namespace gasp
