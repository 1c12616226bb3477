// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"

#include <algorithm>

namespace gasp {
namespace {

constexpr std::string_view name = "fuse";

std::string another(double continuous_a, double pulse_a, double pulse_ms, double wire_a, double mm2,
                    UnitSystem units) {
    if (const auto fuse = fitting_fuse_a(continuous_a, pulse_a, pulse_ms, wire_a)) {
        return "Fit a fuse of " + current_text(*fuse);
    }
    const auto unbound = fitting_fuse_a(continuous_a, pulse_a, pulse_ms, 1e9);
    const auto wire = unbound ? smallest_wire_mm2({0.0, continuous_a, 0.0, *unbound}, units) : std::nullopt;
    return wire && *wire > mm2
               ? "Make the wire " + wire_text(*wire, units) + " and fit a fuse of " + current_text(*unbound)
               : "Share the loads out among more wires";
}

/// A fuse, the wire behind it, and what flows in both.
struct Guarded {
    std::string fuse;  ///< "the fuse of "lamp""
    double fuse_a = 0.0;
    std::string wire;  ///< "its wire"
    Figure mm2;
    double continuous_a = 0.0;
    double pulse_a = 0.0;
    double pulse_ms = 0.0;
};

void check_guard(const Guarded& guarded, const Finding& about_it, UnitSystem units,
                 std::vector<Finding>& findings) {
    const double wire_a = guarded.mm2 ? ampacity_a(*guarded.mm2).value_or(0.0) : 1e9;
    const auto remedy = [&] {
        return another(guarded.continuous_a, guarded.pulse_a, guarded.pulse_ms, wire_a,
                       guarded.mm2.value_or(0.0), units);
    };
    Finding finding = about_it;
    if (guarded.fuse_a > wire_a) {
        finding.severity = Severity::stop;
        finding.what = capital(guarded.fuse) + " is larger than " + guarded.wire + " bears";
        set_currents(finding, guarded.fuse_a, "at most", wire_a);
        finding.limit += " in " + wire_text(*guarded.mm2, units);
    } else if (guarded.fuse_a < least_fuse_a(guarded.continuous_a)) {
        finding.what = capital(guarded.fuse) + " is too small for what flows for long";
        set_currents(finding, guarded.fuse_a, "at least", least_fuse_a(guarded.continuous_a));
        finding.limit += ", 1.25 times the current";
    } else if (!fuse_bears(guarded.fuse_a, guarded.pulse_a, guarded.pulse_ms)) {
        finding.what = capital(guarded.fuse) + " may blow at the inrush";
        finding.figure = current_text(guarded.pulse_a) + " for " + print_duration(from_ms(guarded.pulse_ms));
        finding.limit = "what a blade fuse of " + current_text(guarded.fuse_a) + " surely bears";
    } else {
        return;
    }
    finding.remedy = remedy();
    findings.push_back(std::move(finding));
}

void check_circuit(const CheckedCircuit& circuit, UnitSystem units, std::vector<Finding>& findings) {
    const Circuit& wired = circuit.channel.circuit;
    const double current = circuit.channel.load_current_a.value_or(0.0);
    const std::string of = quoted(circuit.channel.name);
    if (wired.fuse_a) {
        const Guarded guarded{"the fuse of " + of,
                              *wired.fuse_a,
                              "its wire",
                              wired.wire_mm2,
                              current,
                              wired.inrush_a.value_or(current),
                              wired.inrush_ms.value_or(0.0)};
        check_guard(guarded, about(circuit.channel, name, Severity::warn, "circuit.fuse_a"), units, findings);
    } else if (circuit.supply.fuse_a && wired.wire_mm2 &&
               *circuit.supply.fuse_a > ampacity_a(*wired.wire_mm2).value_or(0.0)) {
        Finding finding = about(circuit.channel, name, Severity::stop, "circuit.fuse_a");
        finding.what = "The fuse of supply " + quoted(circuit.supply.name) + " is larger than the wire of " +
                       of + " bears, which has none of its own";
        set_currents(finding, *circuit.supply.fuse_a, "at most", ampacity_a(*wired.wire_mm2).value_or(0.0));
        finding.limit += " in " + wire_text(*wired.wire_mm2, units);
        finding.remedy = another(current, wired.inrush_a.value_or(current), wired.inrush_ms.value_or(0.0),
                                 ampacity_a(*wired.wire_mm2).value_or(0.0), *wired.wire_mm2, units) +
                         " where it leaves the feed";
        findings.push_back(std::move(finding));
    }
}

void check_supply_fuse(const CheckInput& input, std::size_t place, std::vector<Finding>& findings) {
    const Supply& supply = input.show.rig.supplies[place];
    const SequencePower& power = input.run.power;
    double longest_ms = 0.0;
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        if (circuit.model.supply == place) {
            longest_ms = std::max(longest_ms, circuit.channel.circuit.inrush_ms.value_or(0.0));
        }
    });
    const double heating = power.rms_a(place, shortest_period(input.show, input.sequence));
    const double peak = amps(power.curves[place].peak);
    const Guarded feed{"the fuse of supply " + quoted(supply.name),
                       *supply.fuse_a,
                       "its feed",
                       supply.feed_mm2,
                       heating,
                       std::max(peak, amps(power.curves[place].steady_peak)),
                       longest_ms};
    const Finding about_it = about(supply, name, Severity::warn, "fuse_a");
    check_guard(feed, about_it, input.units, findings);
    const bool shared =
        amps(power.wire_peaks[PowerModel::return_of(place)]) > supply.standing_a.value_or(0.0);
    if (shared && supply.return_mm2 && *supply.fuse_a > ampacity_a(*supply.return_mm2).value_or(0.0)) {
        Guarded back = feed;
        back.wire = "its shared return";
        back.mm2 = supply.return_mm2;
        check_guard(back, about_it, input.units, findings);
    }
}

}  // namespace

std::vector<Finding> check_fuse(const CheckInput& input) {
    std::vector<Finding> findings;
    Blanks fuse(name, "fuse", "circuit.fuse_a");
    for_each_circuit(input, [&](const CheckedCircuit& circuit) {
        if (!fuse_of(circuit.channel.circuit, circuit.supply)) {
            fuse.add(circuit.channel);
        }
        check_circuit(circuit, input.units, findings);
    });
    for (std::size_t place = 0; place < input.show.rig.supplies.size(); ++place) {
        if (input.show.rig.supplies[place].fuse_a) {
            check_supply_fuse(input, place, findings);
        }
    }
    fuse.put(findings);
    return findings;
}

}  // namespace gasp
