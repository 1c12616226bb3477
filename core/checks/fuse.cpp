// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/blanks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/power/current_ranges.hpp"

#include <functional>

namespace gasp {
namespace {

constexpr std::string_view name = "fuse";

/// What flows through a fuse.
struct FuseLoad {
    double continuous_a = 0.0;
    std::function<bool(double fuse_a)> bears;                     ///< whatever more flows for a while
    std::function<std::optional<double>(double wire_a)> fitting;  ///< the smallest fuse that does
    std::function<std::string(double fuse_a)> what;               ///< "8 A for 30 ms"
};

FuseLoad load_of(const Channel& channel) {
    const double current = channel.load_current_a.value_or(0.0);
    const double pulse_a = channel.circuit.inrush_a.value_or(current);
    const double pulse_ms = channel.circuit.inrush_ms.value_or(0.0);
    return {current, [=](double fuse_a) { return fuse_bears(fuse_a, pulse_a, pulse_ms); },
            [=](double wire_a) { return fitting_fuse_a(current, pulse_a, pulse_ms, wire_a); },
            [=](double) { return current_text(pulse_a) + " for " + print_duration(from_ms(pulse_ms)); }};
}

FuseLoad load_of(const CheckInput& input, std::size_t supply) {
    const CurrentCurve& curve = input.run.power.curves[supply];
    const Micros length = input.run.power.length;
    const double heating = input.run.power.rms_a(supply, shortest_period(input.show, input.sequence));
    return {
        heating, [&curve, length](double fuse_a) { return fuse_bears(fuse_a, curve, length); },
        [&curve, length, heating](double wire_a) { return fitting_fuse_a(heating, curve, length, wire_a); },
        [&curve, length](double fuse_a) {
            const double level = fuse_a * fuse_bears_for_ever;
            return "up to " + current_text(amps(curve.peak)) + ", above " + current_text(level) + " for " +
                   print_duration(longest_above(curve, length, level));
        }};
}

std::string another(const FuseLoad& load, double wire_a, double mm2, UnitSystem units) {
    if (const auto fuse = load.fitting(wire_a)) {
        return "Fit a fuse of " + current_text(*fuse);
    }
    const auto unbound = load.fitting(1e9);
    const auto wire = unbound ? smallest_wire_mm2({0.0, 0.0, 0.0, *unbound}, units) : std::nullopt;
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
    std::string at;  ///< "inrush"
    FuseLoad load;
};

void check_guard(const Guarded& guarded, const Finding& about_it, UnitSystem units,
                 std::vector<Finding>& findings) {
    const double wire_a = guarded.mm2 ? ampacity_a(*guarded.mm2).value_or(0.0) : 1e9;
    const auto remedy = [&] { return another(guarded.load, wire_a, guarded.mm2.value_or(0.0), units); };
    Finding finding = about_it;
    if (guarded.fuse_a > wire_a) {
        finding.severity = Severity::stop;
        finding.what = capital(guarded.fuse) + " is larger than " + guarded.wire + " bears";
        set_currents(finding, guarded.fuse_a, "at most", wire_a);
        finding.limit += " in " + wire_text(*guarded.mm2, units);
    } else if (guarded.fuse_a < least_fuse_a(guarded.load.continuous_a)) {
        finding.what = capital(guarded.fuse) + " is too small for what flows for long";
        set_currents(finding, guarded.fuse_a, "at least", least_fuse_a(guarded.load.continuous_a));
        finding.limit += ", 1.25 times the current";
    } else if (!guarded.load.bears(guarded.fuse_a)) {
        finding.what = capital(guarded.fuse) + " may blow at the " + guarded.at;
        finding.figure = guarded.load.what(guarded.fuse_a);
        finding.limit = "what a blade fuse of " + current_text(guarded.fuse_a) + " surely bears";
    } else {
        return;
    }
    finding.remedy = remedy();
    findings.push_back(std::move(finding));
}

void check_circuit(const CheckedCircuit& circuit, UnitSystem units, std::vector<Finding>& findings) {
    const Circuit& wired = circuit.channel.circuit;
    const std::string of = quoted(circuit.channel.name);
    if (wired.fuse_a) {
        const Guarded guarded{"the fuse of " + of, *wired.fuse_a, "its wire",
                              wired.wire_mm2,      "inrush",      load_of(circuit.channel)};
        check_guard(guarded, about(circuit.channel, name, Severity::warn, "circuit.fuse_a"), units, findings);
    } else if (circuit.supply.fuse_a && wired.wire_mm2 &&
               *circuit.supply.fuse_a > ampacity_a(*wired.wire_mm2).value_or(0.0)) {
        Finding finding = about(circuit.channel, name, Severity::stop, "circuit.fuse_a");
        finding.what = "The fuse of supply " + quoted(circuit.supply.name) + " is larger than the wire of " +
                       of + " bears, which has none of its own";
        set_currents(finding, *circuit.supply.fuse_a, "at most", ampacity_a(*wired.wire_mm2).value_or(0.0));
        finding.limit += " in " + wire_text(*wired.wire_mm2, units);
        finding.remedy = another(load_of(circuit.channel), ampacity_a(*wired.wire_mm2).value_or(0.0),
                                 *wired.wire_mm2, units) +
                         " where it leaves the feed";
        findings.push_back(std::move(finding));
    }
}

void check_supply_fuse(const CheckInput& input, std::size_t place, std::vector<Finding>& findings) {
    const Supply& supply = input.show.rig.supplies[place];
    const SequencePower& power = input.run.power;
    const Guarded feed{"the fuse of supply " + quoted(supply.name),
                       *supply.fuse_a,
                       "its feed",
                       supply.feed_mm2,
                       "loads that are on together",
                       load_of(input, place)};
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
