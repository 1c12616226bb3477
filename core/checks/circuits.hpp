// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <string>
#include <string_view>

namespace gasp {

// What the checks of power and wiring share.

/// A channel on a supply, and what is known of its circuit.
struct CheckedCircuit {
    const Channel& channel;
    const Supply& supply;
    const CircuitModel& model;
    const CircuitUse& use;  ///< over this sequence
};

/// Calls `take(CheckedCircuit)` for each channel of the rig that is on a supply, whether this sequence uses
/// it or not: what is blank is then said alike for every sequence, and so once.
template <class Take>
void for_each_circuit(const CheckInput& input, Take take) {
    const SequencePower& power = input.run.power;
    for (std::size_t place = 0; place < power.circuits.size(); ++place) {
        const CircuitModel& model = power.model.circuits[place];
        if (model.supply) {
            take(CheckedCircuit{input.show.rig.channels[place], input.show.rig.supplies[*model.supply], model,
                                power.circuits[place]});
        }
    }
}

/// A finding about a circuit as it is built, at any moment.
[[nodiscard]] Finding about(const Channel& channel, std::string_view check, Severity severity,
                            std::string_view field);
[[nodiscard]] Finding about(const Supply& supply, std::string_view check, Severity severity,
                            std::string_view field);

[[nodiscard]] std::string current_text(double amps);  ///< "0.42 A"
[[nodiscard]] std::string voltage_text(double volts);
/// Figure and limit of a finding, told apart: "2.05 A", "at most 2 A".
void set_currents(Finding& finding, double figure, std::string_view relation, double limit);
[[nodiscard]] std::string wire_text(double mm2, UnitSystem units);  ///< "0.75 mm2", "18 AWG"

/// Whether a wire carries more than it bears; not where its size is blank.
[[nodiscard]] bool too_much(double amps, const Figure& mm2);
/// That it does, with figure, limit and remedy. `wire`: "the wire of "lamp"", on that supply.
void set_too_much(Finding& finding, const Supply& supply, const std::string& wire, double amps, double mm2,
                  UnitSystem units);

/// " at 0:09.420", and the place of a finding with it.
void set_moment(Finding& finding, const CheckInput& input, Micros time);

/// The fuse that guards a circuit's wire: its own, or its supply's; blank where neither is given.
[[nodiscard]] Figure fuse_of(const Circuit& circuit, const Supply& supply);

/// The remedy where the voltage can harm.
inline constexpr std::string_view by_electrician = "Have a licensed electrician choose the wire and its fuse";

}  // namespace gasp
