// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/short_stroke.hpp"

#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"
#include "core/units/rounded.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

double least_kpa(const CheckInput& input, const Stroke& stroke) {
    return find(input.show, stroke.command.actuator)->valve.least_kpa_gauge.value_or(0.0);
}

std::string pilot_remedy(const CheckInput& input, const Stroke& stroke) {
    const double least = least_kpa(input, stroke);
    const Figure& set = input.show.rig.air_plant.regulator_kpa_gauge;
    return (set && *set < least ? "Set the regulator to " : "Keep the receiver at or above ") +
           print_rounded_up(Quantity::gauge_pressure, least, input.units);
}

}  // namespace

std::optional<Micros> time_held(const CheckInput& input, const Stroke& stroke) {
    for (const StrokeCommand& command : input.strokes) {
        if (command.actuator == stroke.command.actuator && command.time > stroke.command.time) {
            return command.time - stroke.command.time;
        }
    }
    return {};
}

double pilot_kpa(const CheckInput& input, const Stroke& stroke) {
    const Figure& set = input.show.rig.air_plant.regulator_kpa_gauge;
    return set ? std::min(*set, stroke.receiver_kpa) : stroke.receiver_kpa;
}

ShortStroke short_stroke(const CheckInput& input, const Stroke& stroke) {
    ShortStroke why;
    why.held = time_held(input, stroke);
    if (!stroke.shifted) {
        why.by = pilot_kpa(input, stroke) < least_kpa(input, stroke) ? ShortBy::pilot : ShortBy::delay;
        return why;
    }
    const auto alone = input.facts.alone.find({stroke.command.actuator, stroke.command.way});
    const Micros had = why.held.value_or(input.schedule.length - stroke.command.time);
    if (alone != input.facts.alone.end() && alone->second.arrival_s && *alone->second.arrival_s > to_s(had)) {
        why.by = ShortBy::time;
        why.needed = from_ms(std::ceil(alone->second.latest_s.value_or(*alone->second.arrival_s) * 1e3));
        why.measured = alone->second.measured;
    } else if (stroke.end != StrokeEnd::stalls) {
        // For want of air it takes longer than alone; nobody knows how long.
        why.by = ShortBy::time;
    }
    return why;
}

std::string remedy(const CheckInput& input, const Stroke& stroke, const ShortStroke& why) {
    switch (why.by) {
        case ShortBy::pilot:
            return pilot_remedy(input, stroke);
        case ShortBy::delay:
            return "Hold the cue longer than the valve's delay";
        case ShortBy::pressure:
            return "Raise the regulator, or lighten the load";
        case ShortBy::time:
            break;
    }
    const Micros had = why.held.value_or(input.schedule.length - stroke.command.time);
    const std::string what = why.held ? "Make the cue " : "Lengthen the sequence";
    if (why.needed) {
        return what + (why.held ? print_duration(*why.needed - had) + " longer"
                                : " by " + print_duration(*why.needed - had));
    }
    return what + (why.held ? "longer" : "") + ", or keep the receiver above the regulator";
}

}  // namespace gasp
