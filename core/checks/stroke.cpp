// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/travel.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/short_stroke.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <cmath>
#include <optional>

namespace gasp {
namespace {

constexpr std::string_view name = "stroke";

const char* way_of(const Stroke& stroke) {
    return stroke.command.way == Coil::out ? "out" : "back";
}

std::string whole(Micros needed, bool measured) {
    return at_least(needed) + (measured ? "" : " (not measured)");
}

Finding stopped_short(const CheckInput& input, const Stroke& stroke, const Actuator& actuator) {
    const ShortStroke why = short_stroke(input, stroke);
    Finding finding = about_stroke(input, stroke, name, Severity::stop);
    finding.remedy = remedy(input, stroke, why);
    if (why.by == ShortBy::pilot || why.by == ShortBy::delay) {
        finding.what = "The valve of " + quoted(actuator.name) + " does not shift";
        if (why.by == ShortBy::pilot) {
            set_pressures(finding, pilot_kpa(input, stroke), "at least", *actuator.valve.least_kpa_gauge,
                          input.units);
        } else if (why.held) {
            finding.figure = print_duration(*why.held);
            finding.limit = "longer than its delay";
        }
        return finding;
    }
    if (why.by == ShortBy::time && why.held) {
        finding.what = quoted(actuator.name) + " is turned before it is fully " + way_of(stroke);
        finding.figure = print_duration(*why.held);
        finding.limit = why.needed ? whole(*why.needed, why.measured) : "the whole stroke";
        return finding;
    }
    finding.what = quoted(actuator.name) +
                   (why.by == ShortBy::time ? " is still on its way " : " stops on its way ") +
                   way_of(stroke) + (why.by == ShortBy::time ? " when the sequence ends" : "");
    finding.figure =
        print_quantity(Quantity::percent, std::floor(stroke.furthest * 100.0), UnitSystem::metric) +
        " of the stroke";
    finding.limit = "all of it";
    return finding;
}

/// It arrives, but not at the unfavourable end of what is not known.
Finding may_be_turned(const CheckInput& input, const Stroke& stroke, const StrokeBand& band,
                      const Actuator& actuator, Micros held) {
    Finding finding = about_stroke(input, stroke, name, Severity::warn);
    finding.what = quoted(actuator.name) + " may be turned before it is fully " + way_of(stroke);
    finding.figure = print_duration(held);
    Micros needed = held;
    bool measured = band.measured;
    if (const double latest = band.reached_s[3]->high; std::isfinite(latest)) {
        needed = from_ms(std::ceil(latest * 1e3));
    } else if (const ShortStroke why = short_stroke(input, stroke); why.needed) {
        needed = *why.needed;
        measured = why.measured;
    }
    finding.limit = needed > held ? whole(needed, measured) : "the whole stroke";
    finding.remedy = "Make the cue " + (needed > held ? print_duration(needed - held) + " " : "") + "longer" +
                     (measured ? "" : ", or time the real stroke for a fit");
    return finding;
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
        const auto held = time_held(input, stroke);
        if (stroke.end != StrokeEnd::arrives) {
            findings.push_back(stopped_short(input, stroke, actuator));
        } else if (held && (!band.arrives || band.reached_s[3]->high > to_s(*held))) {
            findings.push_back(may_be_turned(input, stroke, band, actuator, *held));
        }
    });
    return findings;
}

}  // namespace gasp
