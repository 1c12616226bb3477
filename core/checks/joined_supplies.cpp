// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "joined_supplies";

void check_return(const CheckInput& input, const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    const auto back = place_of(input.show.rig, circuit.channel.circuit.returns_to);
    if (!back || back == circuit.model.supply) {
        return;
    }
    const Supply& other = input.show.rig.supplies[*back];
    const bool never = hazardous(other) || hazardous(circuit.supply);
    Finding finding =
        about(circuit.channel, name, never ? Severity::stop : Severity::warn, "circuit.returns_to");
    finding.what = "The circuit of " + quoted(circuit.channel.name) + " joins two supplies: fed from " +
                   quoted(circuit.supply.name) + ", its return goes to " + quoted(other.name);
    finding.remedy = "Return it to " + quoted(circuit.supply.name);
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_joined_supplies(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_circuit(input, [&](const CheckedCircuit& circuit) { check_return(input, circuit, findings); });
    return findings;
}

}  // namespace gasp
