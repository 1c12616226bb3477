// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/circuits.hpp"

#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/units/rounded.hpp"

namespace gasp {

Finding about(const Channel& channel, std::string_view check, Severity severity, std::string_view field) {
    Finding finding{check, severity, false, {}, {}, {}, {}, {}};
    finding.place.channel = channel.id;
    finding.place.field = field;
    return finding;
}

Finding about(const Supply& supply, std::string_view check, Severity severity, std::string_view field) {
    Finding finding{check, severity, false, {}, {}, {}, {}, {}};
    finding.place.supply = supply.id;
    finding.place.field = field;
    return finding;
}

std::string current_text(double amps) {
    return print_rounded(Quantity::current, amps, UnitSystem::metric);
}

std::string voltage_text(double volts) {
    return print_rounded(Quantity::voltage, volts, UnitSystem::metric);
}

void set_currents(Finding& finding, double figure, std::string_view relation, double limit) {
    auto [found, held_against] = print_apart(Quantity::current, figure, limit, UnitSystem::metric);
    finding.figure = std::move(found);
    finding.limit = std::string(relation) + " " + held_against;
}

std::string wire_text(double mm2, UnitSystem units) {
    return print_quantity(Quantity::wire_area, mm2, units);
}

bool too_much(double amps, const Figure& mm2) {
    return mm2 && amps > ampacity_a(*mm2).value_or(0.0);
}

void set_too_much(Finding& finding, const Supply& supply, const std::string& wire, double amps, double mm2,
                  UnitSystem units) {
    finding.what = capital(wire) + " carries more than it bears";
    set_currents(finding, amps, "at most", ampacity_a(mm2).value_or(0.0));
    finding.limit += " in " + wire_text(mm2, units);
    const auto wider = smallest_wire_mm2({0.0, 0.0, 0.0, amps}, units);
    finding.remedy = hazardous(supply) ? std::string(by_electrician)
                     : wider           ? "Make it " + wire_text(*wider, units)
                                       : "Share the loads out among more wires";
}

void set_moment(Finding& finding, const CheckInput& input, Micros time) {
    finding.place.sequence = input.sequence.id;
    finding.place.time = time;
}

Figure fuse_of(const Circuit& circuit, const Supply& supply) {
    return circuit.fuse_a ? circuit.fuse_a : supply.fuse_a;
}

}  // namespace gasp
