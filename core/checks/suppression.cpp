// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "suppression";

bool on_ac(const Supply& supply) {
    return supply.kind == SupplyKind::transformer || supply.kind == SupplyKind::mains;
}

bool conducts_one_way(Suppression suppression) {
    return suppression == Suppression::diode || suppression == Suppression::diode_and_zener;
}

}  // namespace

// Every coil has a suppressor at it: Caltrans quality standard Electric-08, 8.1.
std::vector<Finding> check_suppression(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks blank(name, "suppression across the coil", "circuit.suppression");
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        if (load_kind(circuit.channel) != LoadKind::coil) {
            return;
        }
        const Suppression fitted = circuit.channel.circuit.suppression;
        const std::string coil = "The coil of " + quoted(circuit.channel.name);
        if (fitted == Suppression::not_stated) {
            blank.add(circuit.channel);
        } else if (fitted == Suppression::none) {
            findings.push_back(about(circuit.channel, name, Severity::warn, "circuit.suppression"));
            findings.back().what = coil +
                                   " has nothing across it: each time it is switched off it burns what "
                                   "switches it, and may reset the board";
            findings.back().remedy = on_ac(circuit.supply)
                                         ? "Fit a varistor, or a resistor and capacitor, at the coil"
                                         : "Fit a diode at the coil, its ring to plus";
        } else if (conducts_one_way(fitted) && on_ac(circuit.supply)) {
            findings.push_back(about(circuit.channel, name, Severity::stop, "circuit.suppression"));
            findings.back().what =
                coil + " has a diode across it and is fed with AC: that is a short circuit";
            findings.back().remedy = "Fit a varistor, or a resistor and capacitor, in its place";
        }
    });
    blank.put(findings);
    return findings;
}

}  // namespace gasp
