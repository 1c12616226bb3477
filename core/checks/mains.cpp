// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"

namespace gasp {

std::vector<Finding> check_mains(const CheckInput& input) {
    std::vector<Finding> findings;
    const auto& supplies = input.show.rig.supplies;
    for (std::size_t place = 0; place < supplies.size(); ++place) {
        const Supply& supply = supplies[place];
        std::vector<std::string> loads;
        for_each_circuit(input, [&](const CheckedCircuit& circuit) {
            if (circuit.model.supply == place) {
                loads.push_back(quoted(circuit.channel.name));
            }
        });
        if (!hazardous(supply) || loads.empty()) {
            continue;
        }
        Finding finding =
            about(supply, "mains", Severity::warn, supply.kind == SupplyKind::mains ? "kind" : "volts_v");
        finding.what = "Supply " + quoted(supply.name) + " is dangerous to touch: wiring it and " +
                       listed(loads) + " is work for a licensed electrician, by the local code";
        finding.figure = supply.volts ? voltage_text(*supply.volts) : std::string();
        finding.limit = supply.volts ? "up to 60 V DC or 30 V AC without one" : "";
        finding.remedy = "Have it done or checked by one, or take loads for low voltage";
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace gasp
