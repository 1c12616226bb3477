// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "coil_duty";

bool continuous(const Circuit& circuit) {
    return circuit.duty_percent && *circuit.duty_percent >= 100.0;
}

std::string percent(double share) {
    return print_quantity(Quantity::percent, std::round(share * 1000.0) / 10.0, UnitSystem::metric);
}

void check_stretch(const CheckInput& input, const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    const Micros allowed = from_ms(*circuit.channel.circuit.longest_on_s * 1000.0);
    if (circuit.use.longest_on <= allowed) {
        return;
    }
    Finding finding = about(circuit.channel, name, Severity::stop, "circuit.longest_on_s");
    set_moment(finding, input, circuit.use.longest_begin);
    finding.what = "The coil of " + quoted(circuit.channel.name) + " is held longer than it bears";
    finding.figure = print_duration(circuit.use.longest_on);
    finding.limit = "at most " + print_duration(allowed);
    finding.remedy = "Shorten what holds it by " + print_duration(circuit.use.longest_on - allowed) +
                     ", or take a coil rated for continuous duty";
    findings.push_back(std::move(finding));
}

/// Over the sequence played again as soon as it may be: a coil heats over minutes, not over one cue.
void check_share(const CheckInput& input, const CheckedCircuit& circuit, std::vector<Finding>& findings) {
    const Micros period = shortest_period(input.show, input.sequence);
    const bool at_rest = circuit.channel.contact == Contact::normally_closed;
    const Micros rest = at_rest ? period - input.schedule.length : Micros{0};
    const Micros on = circuit.use.on + rest;
    const double allowed = *circuit.channel.circuit.duty_percent / 100.0;
    if (period <= Micros{0} || to_s(on) <= allowed * to_s(period)) {
        return;
    }
    Finding finding = about(circuit.channel, name, Severity::stop, "circuit.duty_percent");
    finding.place.sequence = input.sequence.id;
    finding.what = "The coil of " + quoted(circuit.channel.name) +
                   " is held too large a share of the time with " + quoted(input.sequence.name) + " every " +
                   print_duration(period);
    finding.figure = percent(to_s(on) / to_s(period));
    finding.limit = "at most " + percent(allowed);
    finding.remedy = at_rest || !(allowed > 0.0)
                         ? "Take a coil rated for continuous duty"
                         : "Let it run no more often than every " +
                               print_duration(Micros{std::llround(std::ceil(to_s(on) / allowed) * 1e6)}) +
                               ", or take a coil rated for continuous duty";
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_coil_duty(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks duty(name, "duty of the coil", "circuit.duty_percent");
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        const Circuit& wired = circuit.channel.circuit;
        if (load_kind(circuit.channel) != LoadKind::coil || continuous(wired)) {
            return;
        }
        if (!wired.duty_percent && !wired.longest_on_s) {
            duty.add(circuit.channel);
        }
        if (wired.longest_on_s) {
            check_stretch(input, circuit, findings);
        }
        if (wired.duty_percent) {
            check_share(input, circuit, findings);
        }
    });
    duty.put(findings);
    return findings;
}

}  // namespace gasp
