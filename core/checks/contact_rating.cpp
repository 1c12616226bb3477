// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"

#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "contact_rating";

std::string_view switching(const Circuit& circuit) {
    return circuit.switched_by == SwitchedBy::transistor ? "transistor" : "contact";
}

std::string_view of_kind(LoadKind kind) {
    switch (kind) {
        case LoadKind::coil:
            return "of coils";
        case LoadKind::lamp:
            return "of lamps";
        case LoadKind::led:
            return "of LED supplies";
        case LoadKind::motor:
            return "of motors";
        case LoadKind::sound_player:
            return "of players";
        case LoadKind::not_stated:
        case LoadKind::fogger:
        case LoadKind::other:
            break;
    }
    return "of such loads";
}

void check_current(const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    const Circuit& wired = circuit.channel.circuit;
    const LoadKind kind = load_kind(circuit.channel);
    const double current = *circuit.channel.load_current_a;
    if (current <= *wired.switch_a) {
        return;
    }
    Finding finding = about(circuit.channel, name, Severity::stop, "circuit.switch_a");
    finding.what = "The " + std::string(switching(wired)) + " of " + quoted(circuit.channel.name) +
                   " switches more than it is rated for with this kind of load";
    set_currents(finding, current, "at most", *wired.switch_a);
    finding.limit += " " + std::string(of_kind(kind));
    finding.remedy = "Take one rated for " + current_text(current) + " " + std::string(of_kind(kind)) +
                     ", which a rating of " + current_text(std::ceil(current / share_of_resistive(kind))) +
                     " resistive is";
    findings.push_back(std::move(finding));
}

void check_voltage(const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    const Circuit& wired = circuit.channel.circuit;
    if (*circuit.supply.volts <= *wired.switch_volts) {
        return;
    }
    Finding finding = about(circuit.channel, name, Severity::stop, "circuit.switch_volts_v");
    finding.what = "The " + std::string(switching(wired)) + " of " + quoted(circuit.channel.name) +
                   " switches a higher voltage than it is rated for";
    finding.figure = voltage_text(*circuit.supply.volts);
    finding.limit = "at most " + voltage_text(*wired.switch_volts);
    finding.remedy = "Take one rated for " + voltage_text(*circuit.supply.volts);
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_contact_rating(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks rating(name, "rating of the contact or transistor", "circuit.switch_a");
    Blanks voltage(name, "voltage of the contact or transistor", "circuit.switch_volts_v");
    constexpr double usual_volts = 30.0;  // DC rating printed on most relays: common practice, no source
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        const Circuit& wired = circuit.channel.circuit;
        if (!wired.switch_a) {
            rating.add(circuit.channel);
        } else if (circuit.channel.load_current_a) {
            check_current(circuit, findings);
        }
        if (wired.switch_volts && circuit.supply.volts) {
            check_voltage(circuit, findings);
        } else if (circuit.supply.volts && *circuit.supply.volts > usual_volts) {
            voltage.add(circuit.channel);
        }
    });
    rating.put(findings);
    voltage.put(findings);
    return findings;
}

}  // namespace gasp
