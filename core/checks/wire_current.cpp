// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "wire_current";

void check_shared(const CheckInput& input, std::size_t place, std::vector<Finding>& findings) {
    const Supply& supply = input.show.rig.supplies[place];
    const auto& peaks = input.run.power.wire_peaks;
    const double feed = amps(peaks[PowerModel::feed_of(place)]);
    if (too_much(feed, supply.feed_mm2)) {
        findings.push_back(about(supply, name, Severity::stop, "feed_mm2"));
        set_too_much(findings.back(), supply, "the feed of supply " + quoted(supply.name), feed,
                     *supply.feed_mm2, input.units);
    }
    const double back = amps(peaks[PowerModel::return_of(place)]);
    if (too_much(back, supply.return_mm2)) {
        findings.push_back(about(supply, name, Severity::stop, "return_mm2"));
        set_too_much(findings.back(), supply, "the shared return of supply " + quoted(supply.name), back,
                     *supply.return_mm2, input.units);
    }
}

}  // namespace

std::vector<Finding> check_wire_current(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks size(name, "wire size", "circuit.wire_mm2");
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        const Figure& mm2 = circuit.channel.circuit.wire_mm2;
        if (!mm2) {
            size.add(circuit.channel);
        } else if (const Figure& current = circuit.channel.load_current_a;
                   current && too_much(*current, mm2)) {
            findings.push_back(about(circuit.channel, name, Severity::stop, "circuit.wire_mm2"));
            set_too_much(findings.back(), circuit.supply, "the wire of " + quoted(circuit.channel.name),
                         *current, *mm2, input.units);
        }
    });
    for (std::size_t place = 0; place < input.show.rig.supplies.size(); ++place) {
        check_shared(input, place, findings);
    }
    size.put(findings);
    return findings;
}

}  // namespace gasp
