// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/fuse_finding.hpp"
#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/schedule/circuit_advice.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

namespace gasp {
namespace {

constexpr std::string_view name = "fuse";

FuseLoad load_of(const Channel& channel) {
    const double current = channel.load_current_a.value_or(0.0);
    const double pulse_a = channel.circuit.inrush_a.value_or(current);
    const double pulse_ms = channel.circuit.inrush_ms.value_or(0.0);
    return {current, inrush_known(channel),
            [=](double fuse_a) { return fuse_bears(fuse_a, pulse_a, pulse_ms); },
            [=](double wire_a) { return fitting_fuse_a(current, pulse_a, pulse_ms, wire_a); },
            [=](double) { return current_text(pulse_a) + " for " + print_duration(from_ms(pulse_ms)); }};
}

void check_circuit(const CheckedCircuit& circuit, UnitSystem units, std::vector<Finding>& findings) {
    const Circuit& wired = circuit.channel.circuit;
    const std::string of = quoted(circuit.channel.name);
    if (wired.fuse_a) {
        const Guarded guarded{"the fuse of " + of,      *wired.fuse_a, "its wire",
                              wired.wire_mm2,           "inrush",      load_of(circuit.channel),
                              hazardous(circuit.supply)};
        if (auto finding =
                find_fuse(guarded, about(circuit.channel, name, Severity::warn, "circuit.fuse_a"), units)) {
            findings.push_back(std::move(*finding));
        }
    } else if (circuit.supply.fuse_a && wired.wire_mm2 &&
               *circuit.supply.fuse_a > ampacity_a(*wired.wire_mm2).value_or(0.0)) {
        Finding finding = about(circuit.channel, name, Severity::stop, "circuit.fuse_a");
        finding.what = "The fuse of supply " + quoted(circuit.supply.name) + " is larger than the wire of " +
                       of + " bears, which has none of its own";
        set_currents(finding, *circuit.supply.fuse_a, "at most", ampacity_a(*wired.wire_mm2).value_or(0.0));
        finding.limit += " in " + wire_text(*wired.wire_mm2, units);
        finding.remedy = hazardous(circuit.supply)
                             ? std::string(by_electrician)
                             : other_fuse(load_of(circuit.channel), ampacity_a(*wired.wire_mm2).value_or(0.0),
                                          *wired.wire_mm2, units) +
                                   " where it leaves the feed";
        findings.push_back(std::move(finding));
    }
}

}  // namespace

std::vector<Finding> check_fuse(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks fuse(name, "fuse", "circuit.fuse_a");
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        if (!fuse_of(circuit.channel.circuit, circuit.supply)) {
            fuse.add(circuit.channel);
        }
        check_circuit(circuit, input.units, findings);
    });
    const PowerRun run{input.sequence.id, &input.run.power};
    for (std::size_t place = 0; place < input.show.rig.supplies.size(); ++place) {
        if (const Supply& supply = input.show.rig.supplies[place]; supply.fuse_a) {
            const double back = amps(input.run.power.wire_peaks[PowerModel::return_of(place)]);
            auto found = find_supply_fuse(supply, fuse_load(input.show, run, place), back, input.units);
            std::ranges::move(found, std::back_inserter(findings));
        }
    }
    fuse.put(findings);
    return findings;
}

}  // namespace gasp
