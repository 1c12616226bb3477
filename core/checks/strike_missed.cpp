// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/short_stroke.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::string_view name = "strike_missed";

std::string reason(const PlacedStrike& strike, const std::string& figure) {
    switch (strike.fault) {
        case StrikeFault::before_start:
            return figure +
                   " cannot strike so early: its valve would have to switch before the sequence begins";
        case StrikeFault::still_returning:
            return figure + " cannot strike so early: it is not back yet when its valve has to switch";
        case StrikeFault::does_not_arrive:
            return figure + " does not get to its strike";
        case StrikeFault::not_known:
        case StrikeFault::none:
            break;
    }
    return {};
}

const Stroke* stroke_of(const CheckInput& input, const PlacedStrike& strike) {
    if (!input.run.air.run) {
        return nullptr;
    }
    constexpr Micros rounding =
        std::chrono::milliseconds{50};  // to the tick of any board but a very slow one
    const auto found = std::ranges::find_if(input.run.air.run->strokes, [&](const Stroke& stroke) {
        return stroke.command.actuator == strike.actuator && stroke.command.way == strike.way &&
               std::chrono::abs(stroke.command.time - strike.start) <= rounding;
    });
    return found != input.run.air.run->strokes.end() ? &*found : nullptr;
}

void word_not_arriving(const CheckInput& input, const PlacedStrike& strike, Finding& finding) {
    const Micros end = input.schedule.length;
    const Stroke* stroke = stroke_of(input, strike);
    if (strike.wanted >= end) {
        finding.limit = "before " + print_time(end);
        finding.remedy =
            "Lengthen the sequence past " + print_time(strike.wanted) + ", or move the strike into it";
        return;
    }
    finding.limit = "its whole way";
    finding.remedy = stroke != nullptr && stroke->end != StrokeEnd::arrives
                         ? remedy(input, *stroke, short_stroke(input, *stroke))
                         : "Make the cue longer, raise the regulator, or lighten the load";
}

}  // namespace

std::vector<Finding> check_strike_missed(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const PlacedStrike& strike : input.run.strikes) {
        const Actuator* actuator = find(input.show, strike.actuator);
        if (actuator == nullptr || strike.fault == StrikeFault::none) {
            continue;
        }
        Place place;
        place.sequence = input.sequence.id;
        place.time = strike.wanted;
        place.cue = strike.cue;
        place.actuator = strike.actuator;
        if (strike.fault == StrikeFault::not_known) {
            place.field = strike.way == Coil::out ? "motion.out_ms" : "motion.back_ms";
            findings.push_back(
                not_checked(name,
                            std::string(strike.way == Coil::out ? "time out of " : "time back of ") +
                                quoted(actuator->name) + ", simulated or stated",
                            place));
            continue;
        }
        Finding finding{name, Severity::stop, false, place, reason(strike, quoted(actuator->name)), {}, {},
                        {}};
        finding.figure = print_time(strike.wanted);
        if (strike.earliest) {
            const Micros earliest = from_ms(std::ceil(to_ms(*strike.earliest)));
            finding.limit = "no earlier than " + print_time(earliest);
            finding.remedy = "Move the strike to " + print_time(earliest) + " or later";
        } else {
            word_not_arriving(input, strike, finding);
        }
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace gasp
