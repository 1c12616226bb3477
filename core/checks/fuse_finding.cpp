// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/fuse_finding.hpp"

#include "core/checks/wording.hpp"
#include "core/power/conductor.hpp"
#include "core/power/current_ranges.hpp"
#include "core/power/fuse.hpp"

#include <algorithm>
#include <utility>

namespace gasp {

FuseLoad fuse_load(const Show& show, const PowerRun& run, std::size_t supply) {
    const SequencePower& power = *run.power;
    const double heating = power.rms_a(supply, shortest_period(show, *find(show, run.sequence)));
    const MicroAmps rest = micro_amps(power.rest_a(supply));
    const FuseRun only{&power.curves[supply], power.length};
    return {heating, true,
            [=](double fuse_a) {
                return fuse_bears(fuse_a, rest, {&only, 1});
            },
            [=](double wire_a) {
                return fitting_fuse_a(heating, rest, {&only, 1}, wire_a);
            },
            [=](double fuse_a) {
                const double level = fuse_a * fuse_bears_for_ever;
                return "up to " + current_text(amps(only.curve->peak)) + ", above " + current_text(level) +
                       " for " + print_duration(longest_above(*only.curve, only.length, level));
            }};
}

FuseLoad fuse_load(std::span<const PowerRun> runs, const PowerTogether& together, std::size_t supply) {
    const SupplyTogether& sum = together.supplies[supply];
    const double heating = sum.rms_a;
    const MicroAmps peak = sum.peak;
    const MicroAmps rest = micro_amps(runs.front().power->rest_a(supply));
    const std::vector<FuseRun> met = fuse_runs(runs, together.sequences, supply);
    return {heating, true, [=](double fuse_a) { return fuse_bears(fuse_a, rest, met); },
            [=](double wire_a) { return fitting_fuse_a(heating, rest, met, wire_a); },
            [=](double) { return "up to " + current_text(amps(peak)); }};
}

std::string other_fuse(const FuseLoad& load, double wire_a, double mm2, UnitSystem units) {
    if (!load.known) {
        const auto fuses = standard_fuses_a();
        const auto above = std::ranges::upper_bound(fuses, wire_a);
        return above == fuses.begin() ? "Make the wire thicker"
                                      : "Fit a fuse of no more than " + current_text(*(above - 1));
    }
    if (const auto fuse = load.fitting(wire_a)) {
        return "Fit a fuse of " + current_text(*fuse);
    }
    const auto unbound = load.fitting(1e9);
    const auto wire = unbound ? smallest_wire_mm2({0.0, 0.0, 0.0, *unbound}, units) : std::nullopt;
    return wire && *wire > mm2
               ? "Make the wire " + wire_text(*wire, units) + " and fit a fuse of " + current_text(*unbound)
               : "Share the loads out among more wires";
}

std::optional<Finding> find_fuse(const Guarded& guarded, Finding about, UnitSystem units) {
    const double wire_a = guarded.mm2 ? ampacity_a(*guarded.mm2).value_or(0.0) : 1e9;
    if (guarded.fuse_a > wire_a) {
        about.severity = Severity::stop;
        about.what = capital(guarded.fuse) + " is larger than " + guarded.wire + " bears";
        set_currents(about, guarded.fuse_a, "at most", wire_a);
        about.limit += " in " + wire_text(*guarded.mm2, units);
    } else if (guarded.fuse_a < least_fuse_a(guarded.load.continuous_a)) {
        about.what = capital(guarded.fuse) + " is too small for what flows for long";
        set_currents(about, guarded.fuse_a, "at least", least_fuse_a(guarded.load.continuous_a));
        about.limit += ", 1.25 times the current";
    } else if (guarded.load.known && !guarded.licensed && !guarded.load.bears(guarded.fuse_a)) {
        about.what = capital(guarded.fuse) + " may blow at the " + guarded.at;
        about.figure = guarded.load.what(guarded.fuse_a);
        about.limit = "what a blade fuse of " + current_text(guarded.fuse_a) + " surely bears";
    } else {
        return std::nullopt;
    }
    about.remedy = guarded.licensed ? std::string(by_electrician)
                                    : other_fuse(guarded.load, wire_a, guarded.mm2.value_or(0.0), units);
    return about;
}

std::vector<Finding> find_supply_fuse(const Supply& supply, const FuseLoad& load, double back_a,
                                      UnitSystem units) {
    const bool shared = back_a > supply.standing_a.value_or(0.0);
    const bool back_is_thinner =
        shared && supply.return_mm2 && (!supply.feed_mm2 || *supply.return_mm2 < *supply.feed_mm2);
    const Guarded guarded{"the fuse of supply " + quoted(supply.name),
                          *supply.fuse_a,
                          back_is_thinner ? "its shared return" : "its feed",
                          back_is_thinner ? supply.return_mm2 : supply.feed_mm2,
                          "loads that are on together",
                          load,
                          hazardous(supply)};
    std::vector<Finding> findings;
    if (auto finding = find_fuse(guarded, about(supply, "fuse", Severity::warn, "fuse_a"), units)) {
        findings.push_back(std::move(*finding));
    }
    return findings;
}

}  // namespace gasp
