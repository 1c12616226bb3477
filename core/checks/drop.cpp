// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/power/contact.hpp"
#include "core/units/rounded.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "drop";

/// The wire of the way in which most is lost.
struct WorstPart {
    std::string_view called;
    double volts = 0.0;
    const Figure& mm2;
};

WorstPart worst_part(const CheckInput& input, const CheckedCircuit& circuit, const Drop& drop) {
    const auto& supplies = input.show.rig.supplies;
    const auto back = place_of(input.show.rig, circuit.channel.circuit.returns_to);
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

void check_circuit(const CheckInput& input, const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    if (!circuit.use.drop || !circuit.supply.volts || !circuit.channel.circuit.least_percent) {
        return;
    }
    const bool coil = load_kind(circuit.channel) == LoadKind::coil;
    const Drop& drop = coil ? circuit.use.drop->starting : circuit.use.drop->worst;
    const double rated = circuit.channel.circuit.volts.value_or(*circuit.supply.volts);
    const double least = rated * *circuit.channel.circuit.least_percent / 100.0;
    const double left = *circuit.supply.volts - drop.volts;
    if (left >= least) {
        return;
    }
    Finding finding =
        about(circuit.channel, name, coil ? Severity::stop : Severity::warn, "circuit.wire_mm2");
    set_moment(finding, input, drop.at);
    finding.what = coil ? "The coil of " + quoted(circuit.channel.name) + " may not pull in: too little of " +
                              voltage_text(*circuit.supply.volts) + " reaches it"
                        : "Too little of " + voltage_text(*circuit.supply.volts) + " reaches " +
                              quoted(circuit.channel.name);
    auto [figure, limit] = print_apart(Quantity::voltage, std::max(left, 0.0), least, input.units);
    finding.figure = figure;
    finding.limit = "at least " + limit;
    finding.remedy = thicker(worst_part(input, circuit, drop), least - left, input.units);
    findings.push_back(std::move(finding));
}

void check_rated_volts(const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    constexpr double tolerance = 0.1;  // of coils and lamps: IEC 60204-1 4.3, supply within 10 %
    const Figure& load = circuit.channel.circuit.volts;
    const Figure& supply = circuit.supply.volts;
    if (!load || !supply || std::abs(*supply - *load) <= tolerance * *load) {
        return;
    }
    Finding finding = about(circuit.channel, name, Severity::stop, "circuit.volts_v");
    finding.what = "The load of " + quoted(circuit.channel.name) + " is not made for the voltage of supply " +
                   quoted(circuit.supply.name);
    finding.figure = voltage_text(*supply);
    finding.limit = voltage_text(*load) + " within 10 %";
    finding.remedy =
        "Put it on a supply of " + voltage_text(*load) + ", or take a load for " + voltage_text(*supply);
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_drop(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks volts(name, "voltage", "volts_v");
    Blanks least(name, "least voltage at which the coil pulls in", "circuit.least_percent");
    Blanks length(name, "length of wire", "circuit.wire_length_m");
    Blanks feed(name, "size and length of the shared feed", "feed_mm2");
    Blanks returning(name, "size and length of the shared return", "return_mm2");
    const auto& rig = input.show.rig;
    std::vector<bool> shared(rig.supplies.size());
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        const Circuit& wired = circuit.channel.circuit;
        if (load_kind(circuit.channel) == LoadKind::coil && !wired.least_percent) {
            least.add(circuit.channel);
        }
        if (!wired.wire_length_m) {
            length.add(circuit.channel);
        }
        if (wired.return_path == ReturnPath::shared_return) {
            shared[place_of(rig, wired.returns_to).value_or(*circuit.model.supply)] = true;
        }
        check_rated_volts(circuit, findings);
        check_circuit(input, circuit, findings);
    });
    for (std::size_t place = 0; place < rig.supplies.size(); ++place) {
        const SupplyModel& model = input.run.power.model.supplies[place];
        if (!rig.supplies[place].volts) {
            volts.add(rig.supplies[place]);
        }
        if (!model.feed_ohm) {
            feed.add(rig.supplies[place]);
        }
        if (shared[place] && !model.return_ohm) {
            returning.add(rig.supplies[place]);
        }
    }
    for (const Blanks* blanks : {&volts, &least, &length, &feed, &returning}) {
        blanks->put(findings);
    }
    return findings;
}

}  // namespace gasp
