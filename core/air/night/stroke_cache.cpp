// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/stroke_cache.hpp"

#include "core/air/night/stroke_family.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

/// Keeps strikes within some 20 us, where a night promises 0.5 ms.
constexpr double night_tolerance = 1e-5;
constexpr double never = std::numeric_limits<double>::quiet_NaN();

std::vector<double> strikes(const AirRun& run) {
    std::vector<double> strike_s;
    for (const Stroke& stroke : run.strokes) {
        strike_s.push_back(stroke.strike_s().value_or(never));
    }
    return strike_s;
}

/// Whether straight on from point `from` to point `to` no point in between is further off than `within`.
bool straight(const std::vector<CurvePoint>& points, std::size_t from, std::size_t to, double within) {
    const CurvePoint& a = points[from];
    const CurvePoint& b = points[to];
    for (std::size_t i = from + 1; i < to; ++i) {
        const double share =
            b.time_s > a.time_s ? (points[i].time_s - a.time_s) / (b.time_s - a.time_s) : 1.0;
        if (std::abs(std::lerp(a.value, b.value, share) - points[i].value) > within) {
            return false;
        }
    }
    return true;
}

/// The flow out of a receiver without refill that loses `mass` in all, even over stretches.
std::vector<HeldStrokes::Draw> draws_of(const std::vector<CurvePoint>& receiver, double mass) {
    const double drop = receiver.front().value - receiver.back().value;
    const double within = 0.004 * drop;
    std::vector<HeldStrokes::Draw> draws;
    std::size_t from = 0;
    for (std::size_t to = 1; to < receiver.size(); ++to) {
        if (to + 1 < receiver.size() && straight(receiver, from, to + 1, within)) {
            continue;
        }
        const double part = (receiver[from].value - receiver[to].value) / drop;
        const double length_s = receiver[to].time_s - receiver[from].time_s;
        if (length_s > 0.0) {
            draws.push_back({receiver[from].time_s, receiver[to].time_s, mass * part / length_s});
            from = to;
        }
    }
    return draws;
}

/// At most the air in kg that a pattern takes: each stroke fills its cylinder and tubes from nothing.
double air_at_most(const AirModel& model, const StrokePattern& pattern) {
    double mass = 0.0;
    for (const PatternCommand& command : pattern.commands) {
        const ActuatorModel& each = model.actuators[command.actuator];
        const double volume = each.dead_volume + each.tube_volume + each.out_area * each.stroke;
        mass += model.plant.set_pressure * volume / (gas_constant * model.plant.ambient_temperature);
    }
    return mass;
}

}  // namespace

std::size_t StrokePatternHash::operator()(const StrokePattern& pattern) const {
    std::uint64_t hash = 14695981039346656037U;  // FNV-1a
    const auto take = [&hash](std::uint64_t part) { hash = (hash ^ part) * 1099511628211U; };
    for (const PatternCommand& command : pattern.commands) {
        take(static_cast<std::uint64_t>(command.after.count()));
        take(command.actuator * 4ULL + (command.way == Coil::out ? 2ULL : 0ULL) +
             (command.out_before ? 1ULL : 0ULL));
    }
    return hash;
}

StrokeCache::StrokeCache(AirModel model) : model_(std::move(model)), held_model_(model_) {
    PlantModel& plant = held_model_.plant;
    plant.cut_in = plant.cut_out = plant.delivery = plant.delivery_slope = 0.0;
    plant.leak.c = 0.0;
}

StrokeCache::~StrokeCache() = default;

Result<AirRun> StrokeCache::run(const AirModel& model, const StrokePattern& pattern,
                                const AirOptions& options) const {
    std::vector<StrokeCommand> commands;
    AirOptions all = options;
    all.tolerance = night_tolerance;
    std::vector<bool> seen(model.actuators.size());
    for (const PatternCommand& command : pattern.commands) {
        const ActuatorId id = model.actuators[command.actuator].id;
        commands.push_back({command.after, id, command.way});
        if (!seen[command.actuator] && command.out_before) {
            all.out_at_start.push_back(id);
        }
        seen[command.actuator] = true;
    }
    return run_air(model, commands, pattern.length, all);
}

Result<std::shared_ptr<const HeldStrokes>> StrokeCache::held_once(const StrokePattern& pattern) const {
    AirModel model = held_model_;
    PlantModel& plant = model.plant;
    // A receiver so small that its fall shows when the air was drawn, and so full that it still holds.
    constexpr double fall_over_set = 0.5;
    const double fall = fall_over_set * plant.set_pressure;
    plant.receiver = air_at_most(model, pattern) * gas_constant * plant.ambient_temperature / fall;
    AirOptions options;
    options.receiver_kpa_gauge = (plant.set_pressure + fall - plant.ambient_pressure) * 1e-3;
    simulated_ += pattern.commands.size();
    Result<AirRun> played = run(model, pattern, options);
    if (!played) {
        return tl::unexpected(played.error());
    }
    HeldStrokes held{strikes(*played), {}};
    const double mass = played->left_receiver_l * 1e-3 * reference_density;
    if (mass > 0.0) {
        held.draws = draws_of(played->receiver_kpa.points, mass);
    }
    return std::make_shared<const HeldStrokes>(std::move(held));
}

Result<std::shared_ptr<const HeldStrokes>> StrokeCache::held(const StrokePattern& pattern) {
    HeldEntry* entry = nullptr;
    {
        const std::scoped_lock lock(mutex_);
        std::unique_ptr<HeldEntry>& found = held_[pattern];
        if (!found) {
            found = std::make_unique<HeldEntry>();
        }
        entry = found.get();
    }
    std::call_once(entry->once, [&] { entry->strokes = held_once(pattern); });
    return entry->strokes;
}

Result<JointStrokes> StrokeCache::simulated(const StrokePattern& pattern, const PlantState& start) const {
    const double ambient = model_.plant.ambient_pressure;
    AirOptions options;
    options.receiver_kpa_gauge = (start.pressure - ambient) * 1e-3;
    for (std::size_t i = 0; i < start.kept.size(); ++i) {
        options.kept.push_back({model_.actuators[i].id, (start.kept[i] - ambient) * 1e-3});
    }
    options.compressor_on = start.compressor_on;
    options.filling = start.filling;
    options.curves = false;
    simulated_ += pattern.commands.size();
    const Result<AirRun> played = run(model_, pattern, options);
    if (!played) {
        return tl::unexpected(played.error());
    }
    JointStrokes joint;
    joint.strike_s = strikes(*played);
    joint.lowest = played->lowest_receiver_kpa * 1e3 + ambient;
    joint.end = played->receiver_end_kpa * 1e3 + ambient;
    joint.compressor_on_s = played->compressor_on_s;
    joint.compressor_starts = played->compressor_starts;
    joint.compressor_on = played->compressor_on_at_end;
    joint.kept.assign(model_.actuators.size(), 0.0);
    for (std::size_t i = 0; i < joint.kept.size(); ++i) {
        const auto kept = std::ranges::find(played->kept, model_.actuators[i].id, &KeptAir::actuator);
        joint.kept[i] = kept != played->kept.end() ? kept->kpa_gauge * 1e3 + ambient : 0.0;
    }
    return joint;
}

Result<JointStrokes> StrokeCache::joint(const StrokePattern& pattern, double start, bool compressor_on) {
    Family* family = nullptr;
    {
        const std::scoped_lock lock(mutex_);
        std::unique_ptr<Family>& found = families_[pattern];
        if (!found) {
            found = std::make_unique<Family>(*this, pattern);
        }
        family = found.get();
    }
    return family->at(start, compressor_on);
}

}  // namespace gasp
