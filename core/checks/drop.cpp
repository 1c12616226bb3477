// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/drop_finding.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"

#include <cmath>
#include <utility>

namespace gasp {
namespace {

constexpr std::string_view name = "drop";

void check_rated_volts(const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    constexpr double tolerance = 0.1;  // of coils and lamps: supply within 10 %, IEC 60204-1 4.3, from memory
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
        if (std::optional<Finding> finding = find_drop(rig, circuit, input.units)) {
            finding->place.sequence = input.sequence.id;
            findings.push_back(std::move(*finding));
        }
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
