// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/travel.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace gasp {
namespace {

constexpr std::string_view name = "stroke";

/// The time until the same actuator is sent another way.
std::optional<Micros> until_next(const CheckInput& input, const Stroke& stroke) {
    for (const StrokeCommand& command : input.strokes) {
        if (command.actuator == stroke.command.actuator && command.time > stroke.command.time) {
            return command.time - stroke.command.time;
        }
    }
    return {};
}

Finding stopped_short(const CheckInput& input, const Stroke& stroke, const Actuator& actuator) {
    Finding finding = about_stroke(input, stroke, name, Severity::stop);
    const char* way = stroke.command.way == Coil::out ? " out" : " back";
    if (!stroke.shifted) {
        finding.what = "The valve of " + quoted(actuator.name) + " does not shift";
        if (actuator.valve.least_kpa_gauge) {
            set_pressures(finding, stroke.receiver_kpa, "at least", *actuator.valve.least_kpa_gauge,
                          input.units);
        }
        finding.remedy = "Raise the cut-in, or hold the cue longer than the valve's delay";
        return finding;
    }
    finding.what = quoted(actuator.name) + " stops on its way" + way;
    finding.figure =
        print_quantity(Quantity::percent, std::floor(stroke.furthest * 100.0), UnitSystem::metric) +
        " of the stroke";
    finding.limit = "all of it";
    finding.remedy = "Raise the regulator, or lighten the load";
    return finding;
}

Finding sent_back_early(const CheckInput& input, const Stroke& stroke, const StrokeBand& band,
                        const Actuator& actuator, Micros held, Severity severity, double needed) {
    Finding finding = about_stroke(input, stroke, name, severity);
    finding.what = quoted(actuator.name) +
                   (severity == Severity::stop ? " is turned before it is fully "
                                               : " may be turned before it is fully ") +
                   (stroke.command.way == Coil::out ? "out" : "back");
    finding.figure = print_duration(held);
    if (std::isfinite(needed)) {
        const Micros whole = from_ms(std::ceil(needed * 1e3));
        finding.limit = at_least(whole) + (band.measured ? "" : " (not measured)");
        finding.remedy = "Make the cue " + print_duration(whole - held) + " longer";
    } else {
        finding.limit = "the whole stroke";
        finding.remedy = severity == Severity::stop
                             ? "Make the cue longer, or keep the receiver above the regulator"
                             : "Make the cue longer, and time the real stroke for a fit";
    }
    return finding;
}

/// What the stroke takes with all the air it can use; the turned one does not tell.
double alone(const CheckInput& input, const Stroke& stroke) {
    constexpr double never = std::numeric_limits<double>::infinity();
    const auto found = input.facts.alone.find({stroke.command.actuator, stroke.command.way});
    return found != input.facts.alone.end() ? found->second.arrival_s.value_or(never) : never;
}

}  // namespace

std::vector<Finding> check_stroke(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_stroke(input, [&](const Stroke& stroke, const StrokeBand& band, const Actuator& actuator) {
        // How long the way to rest takes is the business of early_reversal and lockout.
        if ((stroke.command.way == Coil::out) == rests_out(input.show, actuator)) {
            if (stroke.end == StrokeEnd::stalls) {
                findings.push_back(stopped_short(input, stroke, actuator));
            }
            return;
        }
        const auto held = until_next(input, stroke);
        if (stroke.end == StrokeEnd::turned && stroke.shifted && held) {
            // Where it takes longer than alone, for want of air, nobody knows how long.
            const double lone = alone(input, stroke);
            const double needed = lone > to_s(*held) ? lone : std::numeric_limits<double>::infinity();
            findings.push_back(sent_back_early(input, stroke, band, actuator, *held, Severity::stop, needed));
        } else if (stroke.end != StrokeEnd::arrives) {
            findings.push_back(stopped_short(input, stroke, actuator));
        } else if (held && (!band.arrives || band.reached_s[3]->high > to_s(*held))) {
            findings.push_back(sent_back_early(input, stroke, band, actuator, *held, Severity::warn,
                                               band.reached_s[3]->high));
        }
    });
    return findings;
}

}  // namespace gasp
