// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "compressor";

Finding blank(std::string_view field, std::string_view label) {
    Place place;
    place.field = field;
    return not_checked(name, label, place);
}

std::string percent(double share) {
    return print_quantity(Quantity::percent, std::round(share * 100.0), UnitSystem::metric);
}

Finding about(const CheckInput& input, std::string what, std::string figure, std::string limit,
              std::string remedy) {
    Finding finding{name, Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.what = std::move(what);
    finding.figure = std::move(figure);
    finding.limit = std::move(limit);
    finding.remedy = std::move(remedy);
    return finding;
}

std::string again(const CheckInput& input, const Repeated& repeated) {
    return quoted(input.sequence.name) + ", every " + print_duration(repeated.period) + " over " +
           print_duration(repeated.length) + ", ";
}

double share_running(const Repeated& repeated) {
    return repeated.receiver.compressor_on_s / to_s(repeated.length);
}

/// How long a period it takes for the compressor to run no more than this share of the time: what it runs
/// goes with the air used, but no longer than all the time, and it fills the receiver first.
std::string longer_period(const CheckInput& input, const Repeated& repeated, double allowed) {
    constexpr double longest_s = 3600.0;
    double seconds = std::ceil(to_s(repeated.period) * share_running(repeated) / allowed);
    while (seconds <= longest_s) {
        const Micros period{std::llround(seconds * 1e6)};
        const double share = share_running(AirFacts::repeat_every(period, input.model, *input.run.air.run));
        if (share <= allowed) {
            return "Let it run no more often than every " + print_duration(period);
        }
        seconds = std::max(seconds + 1.0, std::ceil(seconds * share / allowed));
    }
    return "Fit a compressor that delivers more, or one that may run longer";
}

void check_duty(const CheckInput& input, const Repeated& repeated, std::vector<Finding>& findings) {
    const Figure& allowed = input.show.rig.air_plant.duty_percent;
    const double share = share_running(repeated);
    if (!allowed) {
        findings.push_back(blank("air_plant.duty_percent", "duty of the compressor"));
    } else if (share * 100.0 > *allowed) {
        findings.push_back(about(input, again(input, repeated) + "makes the compressor run too much",
                                 percent(share) + " of the time", "at most " + percent(*allowed / 100.0),
                                 longer_period(input, repeated, *allowed / 100.0)));
    }
}

void check_starts(const CheckInput& input, const Repeated& repeated, std::vector<Finding>& findings) {
    const Figure& allowed = input.show.rig.air_plant.starts_per_h;
    const double starts = repeated.receiver.compressor_starts * 3600.0 / to_s(repeated.length);
    if (!allowed) {
        findings.push_back(blank("air_plant.starts_per_h", "most starts an hour of the compressor"));
    } else if (starts > *allowed) {
        findings.push_back(about(
            input, again(input, repeated) + "starts the compressor too often",
            print_quantity(Quantity::number, std::round(starts), UnitSystem::metric) + " starts an hour",
            "at most " + print_quantity(Quantity::number, *allowed, UnitSystem::metric),
            "Set cut-out further above cut-in, or fit a larger receiver"));
    }
}

void check_keeping_up(const CheckInput& input, const Repeated& repeated, std::vector<Finding>& findings) {
    const Figure& set = input.show.rig.air_plant.regulator_kpa_gauge;
    const double lowest = repeated.receiver.lowest_kpa;
    if (!set || lowest >= *set || input.run.air.run->lowest_receiver_kpa < *set) {
        return;  // a single run below it is the air budget's business
    }
    Finding finding =
        about(input, again(input, repeated) + "draws the receiver below the regulator", {}, {},
              share_running(repeated) > 0.99 ? "Lengthen the lockout, or fit a compressor that delivers more"
                                             : "Lengthen the lockout, or raise the cut-in");
    set_pressures(finding, std::max(lowest, 0.0), "at least", *set, input.units);
    findings.push_back(std::move(finding));
}

}  // namespace

std::vector<Finding> check_compressor(const CheckInput& input) {
    std::vector<Finding> findings;
    if (!input.facts.repeated) {
        return findings;
    }
    check_duty(input, *input.facts.repeated, findings);
    check_starts(input, *input.facts.repeated, findings);
    check_keeping_up(input, *input.facts.repeated, findings);
    return findings;
}

}  // namespace gasp
