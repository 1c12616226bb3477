// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_run.hpp"

#include "core/air/run/air_runner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace gasp {
namespace {

/// The first of a model's figures that no run can start from.
Result<void> check(const PlantModel& plant) {
    const auto sound = [](double value) { return std::isfinite(value) && value > 0.0; };
    if (!sound(plant.ambient_pressure) || !sound(plant.ambient_temperature) || !sound(plant.set_pressure) ||
        !(plant.receiver > 0.0) || !std::isfinite(plant.delivery + plant.delivery_slope) ||
        !(plant.cut_in <= plant.cut_out)) {
        return fail("a figure of the air plant is not above 0 or has no end", "air_plant",
                    "Correct pressures, temperature, receiver and delivery");
    }
    return {};
}

Result<void> check(const ActuatorModel& model) {
    const std::array above{model.stroke,
                           model.bore,
                           model.out_area,
                           model.back_area,
                           model.dead_volume + model.tube_volume,
                           model.supply.c,
                           model.exhaust.c,
                           model.rod_mass + model.mass};
    const std::array finite{model.spring_force,
                            model.spring_rate,
                            model.moving_friction,
                            model.static_friction,
                            model.viscous,
                            model.wave,
                            model.ramp,
                            model.cushion,
                            model.opening_delay,
                            model.closing_delay,
                            model.heat_transfer,
                            model.reservoir};
    const bool sound = std::ranges::all_of(above, [](double x) { return std::isfinite(x) && x > 0.0; }) &&
                       std::ranges::all_of(finite, [](double x) { return std::isfinite(x); });
    if (!sound) {
        return fail(fmt::format("a figure of \"{}\" is not above 0 or has no end", model.name), "actuator",
                    "Correct its bore, stroke, conductances and mass");
    }
    return {};
}

}  // namespace

const ActuatorRun* AirRun::find(ActuatorId id) const {
    const auto at = std::ranges::find(actuators, id, &ActuatorRun::actuator);
    return at != actuators.end() ? &*at : nullptr;
}

Result<AirRun> run_air(const AirModel& model, std::span<const StrokeCommand> commands, Micros length,
                       const AirOptions& options) {
    Result<void> sound = check(model.plant);
    for (const ActuatorModel& actuator : model.actuators) {
        sound = sound ? check(actuator) : sound;
    }
    if (!sound) {
        return tl::unexpected(sound.error());
    }
    return AirRunner(model, commands, length, options).run();
}

std::optional<double> lead_s(const ActuatorRun& run, const Stroke& stroke, double share, Micros until) {
    const bool out = stroke.command.way == Coil::out;
    const double goal = out ? share : 1.0 - share;
    const auto there = [&](double time) {
        return out ? run.motion.share_at(time) - goal : goal - run.motion.share_at(time);
    };
    const double begin = to_s(stroke.command.time);
    const double end = to_s(until);
    if (there(begin) >= 0.0) {
        return 0.0;
    }
    double before = begin;
    for (const MotionPoint& point : run.motion.points) {
        const double time = std::min(point.time_s, end);
        if (time <= begin) {
            continue;
        }
        if (there(time) >= 0.0) {
            double low = before;
            double high = time;
            for (int i = 0; i < 50; ++i) {
                const double middle = (low + high) / 2.0;
                (there(middle) >= 0.0 ? high : low) = middle;
            }
            return high - begin;
        }
        before = time;
        if (time >= end) {
            break;
        }
    }
    return std::nullopt;
}

Result<Stroke> first_stroke(const AirModel& model, ActuatorId actuator, double tolerance) {
    const std::array commands{StrokeCommand{Micros{0}, actuator, Coil::out}};
    AirOptions options;
    options.air_on_now = true;
    options.tolerance = tolerance;
    options.curves = false;
    if (model.plant.cut_out > 0.0) {
        options.receiver_kpa_gauge = (model.plant.cut_out - model.plant.ambient_pressure) / 1e3;
    }
    constexpr std::chrono::seconds long_enough{20};
    Result<AirRun> run = run_air(model, commands, long_enough, options);
    if (!run) {
        return tl::unexpected(run.error());
    }
    if (run->strokes.empty()) {
        return fail("the actuator cannot be simulated", "actuator", "Fill in what is blank");
    }
    return run->strokes.front();
}

}  // namespace gasp
