// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/sizing.hpp"
#include "core/show/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace gasp {

namespace {

std::size_t action_of(const SizingTask& task) {
    return static_cast<std::size_t>(task.action);
}

void set_action(SizingTask& task, std::size_t action) {
    task.action = static_cast<CylinderAction>(action);
}

template <class T>
std::string range_of(const FigureField<T>& field, UnitSystem units) {
    return fmt::format("{} to {}", print_quantity(field.quantity, field.least, units),
                       print_quantity(field.quantity, field.most, units));
}

}  // namespace

template <>
const Fields<SizingTask>& fields<SizingTask>() {
    using F = FigureField<SizingTask>;
    using Q = Quantity;
    static constexpr std::array<std::string_view, 3> action_keys{"gravity", "spring", "double"};
    static constexpr std::array<std::string_view, 3> action_labels{
        "Air out, its weight back", "Air out, a spring back", "Air out and back"};
    static constexpr std::array choices{
        ChoiceField<SizingTask>{"action", "Drive", action_keys, action_labels, &action_of, &set_action,
                                "What drives it out, and what brings it back."}};
    static constexpr std::array figures{
        F{"lift_mm", "Travel of the figure", Q::small_length, 1, 5000, &SizingTask::lift_mm,
          "How far the figure goes, along its way."},
        F{"mass_kg", "Moving mass", Q::mass, 0.01, 500, &SizingTask::mass_kg,
          "All that moves with the rod; weigh it."},
        F{"angle_deg", "Way out rises by", Q::angle, -90, 90, &SizingTask::angle_deg,
          "Slope of the way out: 90 straight up, 0 level; 90 where blank."},
        F{"ratio", "Figure travel per rod travel", Q::number, 0.1, 20, &SizingTask::ratio,
          "3 where a lever trebles the rod's travel; 1 where blank."},
        F{"out_ms", "Time out", Q::time_ms, 40, 60000, &SizingTask::out_ms,
          "Wanted from the coil switching to the figure fully out."},
        F{"back_ms", "Time back", Q::time_ms, 40, 60000, &SizingTask::back_ms,
          "Wanted back; blank: as it comes."},
        F{"scares_per_h", "Scares an hour", Q::number, 0.1, 3600, &SizingTask::scares_per_h,
          "How many an hour, at the busiest."},
        F{"strokes_per_scare", "Strokes a scare", Q::number, 1, 100, &SizingTask::strokes_per_scare,
          "How often it goes out and back in one scare; 1 where blank."},
        F{"working_kpa_gauge", "Working pressure", Q::gauge_pressure, 50, 1600,
          &SizingTask::working_kpa_gauge, "What the regulator will be set to."},
        F{"friction_percent", "Friction", Q::percent, 0, 60, &SizingTask::friction_percent,
          "Share of the piston's force lost to friction; 10 where blank."},
        F{"tube_m", "Tube length", Q::length, 0.05, 50, &SizingTask::tube_m,
          "From the valve to the cylinder; 2 m where blank."},
        F{"valve_delay_ms", "Valve delay", Q::time_ms, 0, 500, &SizingTask::valve_delay_ms,
          "From power on the coil to air at the port; 25 where blank."},
        F{"duty_percent", "Duty", Q::percent, 5, 100, &SizingTask::duty_percent,
          "Largest share of time the compressor may run; 50 where blank."},
        F{"altitude_m", "Altitude", Q::length, -500, 6000, &SizingTask::altitude_m,
          "Above the sea; thin air is less to deliver."},
        F{"stroke_mm", "Rod's stroke", Q::small_length, 1, 5000, &SizingTask::stroke_mm,
          "Of a cylinder on a lever or swing arms; else it follows from travel and ratio."},
    };
    static constexpr Fields<SizingTask> all{choices, figures};
    return all;
}

SizingTask sizing_task(const Show& show, const Actuator& actuator) {
    const AirPlant& plant = show.rig.air_plant;
    const Load& load = actuator.load;
    SizingTask task;
    task.action = actuator.cylinder.action;
    task.mass_kg = load.mass_kg;
    task.friction_percent = load.friction_percent;
    task.out_ms = actuator.motion.out_ms;
    task.back_ms = actuator.motion.back_ms;
    task.working_kpa_gauge = plant.regulator_kpa_gauge;
    task.tube_m = actuator.tube.length_m;
    task.valve_delay_ms = actuator.valve.opening_delay_ms;
    task.duty_percent = plant.duty_percent;
    task.altitude_m = plant.altitude_m;
    task.linkage = actuator.linkage;
    if (actuator.linkage.kind != LinkageKind::direct) {
        task.stroke_mm = actuator.cylinder.stroke_mm;
        return task;
    }
    task.angle_deg = load.angle_deg;
    task.ratio = load.ratio;
    if (actuator.cylinder.stroke_mm) {
        task.lift_mm = *actuator.cylinder.stroke_mm * load.ratio.value_or(1.0);
    }
    return task;
}

Result<void> check_task(const SizingTask& task, UnitSystem units) {
    const bool direct = task.linkage.kind == LinkageKind::direct;
    const Figure SizingTask::*const needed[] = {direct ? &SizingTask::lift_mm : &SizingTask::stroke_mm,
                                                &SizingTask::mass_kg, &SizingTask::out_ms,
                                                &SizingTask::scares_per_h, &SizingTask::working_kpa_gauge};
    for (const FigureField<SizingTask>& field : fields<SizingTask>().figures) {
        const Figure& figure = task.*field.member;
        if (!figure && std::ranges::find(needed, field.member) != std::end(needed)) {
            return fail(fmt::format("{} is not given", field.label), std::string(field.key),
                        "Give one from " + range_of(field, units));
        }
        if (!figure_allowed(field, task)) {
            return fail(std::isfinite(*figure) ? fmt::format("{} is {}", field.label,
                                                             print_quantity(field.quantity, *figure, units))
                                               : fmt::format("{} is no finite number", field.label),
                        std::string(field.key), "Give one from " + range_of(field, units));
        }
    }
    constexpr double least_stroke_mm = 1.0;
    constexpr double most_stroke_mm = 5000.0;
    const double stroke = direct ? *task.lift_mm / task.ratio.value_or(1.0) : *task.stroke_mm;
    if (!(stroke >= least_stroke_mm && stroke <= most_stroke_mm)) {
        const auto print = [&](double mm) { return print_quantity(Quantity::small_length, mm, units); };
        return fail("the rod would go " + print(stroke), "ratio",
                    fmt::format("Give one with which it goes {} to {}", print(least_stroke_mm),
                                print(most_stroke_mm)));
    }
    return {};
}

}  // namespace gasp
