// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"
#include "core/schedule/circuit_advice.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "supply";

/// What it is to have so that the steady current is within the share that is planned with.
std::string larger(double amps, double use) {
    return "Take a supply of at least " + current_text(std::ceil(amps / use)) +
           ", or let fewer loads be on at once";
}

/// Steady currents at their worst moment, then with surges, then over the repeated sequence: the first that
/// is too much is said.
void check_rating(const CheckInput& input, std::size_t place, std::vector<Finding>& findings) {
    const Supply& supply = input.show.rig.supplies[place];
    const SequencePower& power = input.run.power;
    const CurrentCurve& curve = power.curves[place];
    const double rated = *supply.rated_a;
    const double use = planned_share(supply);
    const double steady = amps(curve.steady_peak);
    const Micros period = shortest_period(input.show, input.sequence);
    const double heating = power.rms_a(place, period);
    Finding finding = about(supply, name, steady > rated ? Severity::stop : Severity::warn, "rated_a");
    if (steady > rated * use) {
        set_moment(finding, input, curve.steady_peak_at);
        finding.what = "Supply " + quoted(supply.name) +
                       (steady > rated ? " gives more than its rating"
                                       : " gives more than the share of its rating to plan with");
        set_currents(finding, steady, "at most", steady > rated ? rated : rated * use);
        finding.remedy = larger(steady, use);
    } else if (amps(curve.peak) > rated) {
        set_moment(finding, input, curve.peak_at);
        finding.what = "Supply " + quoted(supply.name) + " gives more than its rating while a load starts";
        set_currents(finding, amps(curve.peak), "at most", rated);
        finding.remedy = "Let loads start apart from each other, or take a supply of at least " +
                         current_text(std::ceil(amps(curve.peak)));
    } else if (heating > rated * use) {
        finding.place.sequence = input.sequence.id;
        finding.what = "Supply " + quoted(supply.name) +
                       " heats over the night: " + quoted(input.sequence.name) + ", every " +
                       print_duration(period) + ", draws too much on average (RMS)";
        set_currents(finding, heating, "at most", rated * use);
        finding.remedy = larger(heating, use);
    } else {
        return;
    }
    findings.push_back(std::move(finding));
}

void check_battery(const CheckInput& input, std::size_t place, Blanks& capacity,
                   std::vector<Finding>& findings) {
    const Supply& supply = input.show.rig.supplies[place];
    if (supply.kind != SupplyKind::battery) {
        return;
    }
    if (!supply.capacity_ah) {
        capacity.add(supply);
        return;
    }
    if (!input.show.night.hours) {
        Place where;
        where.field = "night.hours";
        findings.push_back(not_checked(name, "hours of the night", where));
        return;
    }
    const double average = input.run.power.average_a(place, shortest_period(input.show, input.sequence));
    const double taken = average * *input.show.night.hours;
    const double use = planned_share(supply);
    if (taken > *supply.capacity_ah * use) {
        Finding finding = about(supply, name, Severity::warn, "capacity_ah");
        finding.place.sequence = input.sequence.id;
        finding.what = "Battery " + quoted(supply.name) + " may not last the night with " +
                       quoted(input.sequence.name) + " again and again";
        finding.figure = print_quantity(Quantity::charge, std::round(taken * 10.0) / 10.0, input.units);
        finding.limit = "at most " + print_quantity(Quantity::charge, *supply.capacity_ah * use, input.units);
        finding.remedy = "Take one of at least " +
                         print_quantity(Quantity::charge, std::ceil(taken / use), input.units) +
                         ", or change it during the night";
        findings.push_back(std::move(finding));
    }
}

bool any_used(const CheckInput& input) {
    return std::ranges::any_of(input.dwells, [](const auto& dwells) { return !dwells.empty(); });
}

void note_blank_circuits(const CheckInput& input, std::vector<Finding>& findings) {
    Blanks without("supply", "supply", "circuit.supply");
    Blanks current("supply", "load current", "load_current_a");
    Blanks kind("supply", "kind of load", "circuit.load");
    Blanks inrush("supply", "inrush current", "circuit.inrush_a");
    Blanks time("supply", "time of the inrush", "circuit.inrush_ms");
    for (std::size_t place = 0; place < input.show.rig.channels.size(); ++place) {
        const Channel& channel = input.show.rig.channels[place];
        const LoadKind load = load_kind(channel);
        if (!input.run.power.model.circuits[place].supply) {
            without.add(channel);
            continue;
        }
        if (!channel.load_current_a) {
            current.add(channel);
        }
        if (load == LoadKind::not_stated) {
            kind.add(channel);
        } else if (surges(load) && !channel.circuit.inrush_a) {
            inrush.add(channel);
        }
        if (channel.circuit.inrush_a && !channel.circuit.inrush_ms) {
            time.add(channel);
        }
    }
    for (const Blanks* blanks : {&without, &current, &kind, &inrush, &time}) {
        blanks->put(findings);
    }
}

}  // namespace

std::vector<Finding> check_supply(const CheckInput& input) {
    std::vector<Finding> findings;
    const auto& supplies = input.show.rig.supplies;
    if (supplies.empty()) {
        if (any_used(input)) {
            Place place;
            place.field = "supplies";
            findings.push_back(not_checked(name, "power supply, so no currents, wires and fuses", place));
            findings.back().remedy = "Add the supplies that feed the channels";
        }
        return findings;
    }
    note_blank_circuits(input, findings);
    Blanks rating(name, "rating", "rated_a");
    Blanks standing(name, "current drawn always", "standing_a");
    Blanks capacity(name, "capacity", "capacity_ah");
    for (std::size_t place = 0; place < supplies.size(); ++place) {
        if (!supplies[place].standing_a) {
            standing.add(supplies[place]);
        }
        if (supplies[place].rated_a) {
            check_rating(input, place, findings);
        } else {
            rating.add(supplies[place]);
        }
        check_battery(input, place, capacity, findings);
    }
    rating.put(findings);
    standing.put(findings);
    capacity.put(findings);
    return findings;
}

}  // namespace gasp
