// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/drop_finding.hpp"

#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/schedule/circuit_advice.hpp"
#include "core/units/rounded.hpp"

#include <algorithm>

namespace gasp {
namespace {

/// The wire of the way in which most is lost.
struct WorstPart {
    std::string_view called;
    double volts = 0.0;
    const Figure& mm2;
};

WorstPart worst_part(const Rig& rig, const CheckedCircuit& circuit, const Drop& drop) {
    const auto& supplies = rig.supplies;
    const auto back = place_of(rig, circuit.channel.circuit.returns_to);
    const Supply& returning = back ? supplies[*back] : circuit.supply;
    const double own = drop.volts - drop.shared_v[0] - drop.shared_v[1];
    const WorstPart parts[] = {{"its own wire", own, circuit.channel.circuit.wire_mm2},
                               {"the feed that all share", drop.shared_v[0], circuit.supply.feed_mm2},
                               {"the shared return", drop.shared_v[1], returning.return_mm2}};
    return *std::ranges::max_element(parts, {}, &WorstPart::volts);
}

/// The next standard wire that brings that part's loss down by so much.
std::string thicker(const WorstPart& part, double too_much, UnitSystem units) {
    const double left = part.volts - too_much;
    const auto sizes = standard_wires_mm2(units);
    const double wanted = left > 0.0 ? *part.mm2 * part.volts / left : sizes.back() * 2.0;
    const auto size = std::ranges::lower_bound(sizes, wanted);
    if (size == sizes.end()) {
        return "Bring the supply nearer to the load";
    }
    return "Make " + std::string(part.called) + " " + wire_text(*size, units) +
           (part.called == "the shared return" ? ", or give the load a return of its own" : "");
}

}  // namespace

std::optional<Finding> find_drop(const Rig& rig, const CheckedCircuit& circuit, UnitSystem units) {
    if (!circuit.use.drop || !circuit.supply.volts || !circuit.channel.circuit.least_percent) {
        return std::nullopt;
    }
    const bool coil = load_kind(circuit.channel) == LoadKind::coil;
    const Drop& drop = counting_drop(circuit.channel, *circuit.use.drop);
    const double rated = circuit.channel.circuit.volts.value_or(*circuit.supply.volts);
    const double least = rated * *circuit.channel.circuit.least_percent / 100.0;
    const double left = *circuit.supply.volts - drop.volts;
    if (left >= least) {
        return std::nullopt;
    }
    Finding finding =
        about(circuit.channel, "drop", coil ? Severity::stop : Severity::warn, "circuit.wire_mm2");
    finding.place.time = drop.at;
    finding.what = coil ? "The coil of " + quoted(circuit.channel.name) + " may not pull in: too little of " +
                              voltage_text(*circuit.supply.volts) + " reaches it"
                        : "Too little of " + voltage_text(*circuit.supply.volts) + " reaches " +
                              quoted(circuit.channel.name);
    auto [figure, limit] = print_apart(Quantity::voltage, std::max(left, 0.0), least, units);
    finding.figure = figure;
    finding.limit = "at least " + limit;
    finding.remedy = hazardous(circuit.supply) ? std::string(by_electrician)
                                               : thicker(worst_part(rig, circuit, drop), least - left, units);
    return finding;
}

}  // namespace gasp
