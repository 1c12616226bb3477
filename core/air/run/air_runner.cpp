// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_runner.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// More than any rig of real parts takes for one stroke, by a hundred times.
constexpr std::size_t most_steps_a_command = 30'000;
constexpr double least_step = 1e-12;  // s

}  // namespace

AirRunner::AirRunner(const AirModel& model, std::span<const StrokeCommand> commands, Micros length,
                     const AirOptions& options)
    : model_(model),
      commands_(commands),
      length_(to_s(length)),
      tolerance_(std::clamp(options.tolerance, 1e-13, 1e-2)),
      air_on_now_(options.air_on_now),
      stopped_(options.stopped),
      system_(model.plant),
      most_steps_(most_steps_a_command * (commands.size() + 1)) {
    add_units(model, commands, options);
    settle(options);
    log_.emplace(system_, run_, options.curves);
    for (std::size_t i = 0; i < commands.size(); ++i) {
        const auto place = places_.find(commands[i].actuator);
        if (place != places_.end() && commands[i].time <= length) {
            plan(to_s(commands[i].time), Kind::command, place->second, i, commands[i].way);
        }
    }
}

void AirRunner::add_units(const AirModel& model, std::span<const StrokeCommand> commands,
                          const AirOptions& options) {
    for (const StrokeCommand& command : commands) {
        places_.try_emplace(command.actuator, 0);
    }
    for (const ActuatorModel& actuator : model.actuators) {
        if (const auto place = places_.find(actuator.id); place != places_.end()) {
            place->second = system_.units.size();
        } else if (!system_.limited()) {
            continue;  // one at rest feels no other, nor any other it
        }
        system_.add(actuator);
        const bool out = std::ranges::find(options.out_at_start, actuator.id) != options.out_at_start.end();
        valves_.push_back({out ? Coil::out : Coil::back, {}, {}});
        system_.units.back().supplied_out = out;
    }
    std::erase_if(places_, [&](const auto& place) { return model.find(place.first) == nullptr; });
}

void AirRunner::settle(const AirOptions& options) {
    const PlantModel& plant = system_.plant();
    double pressure = plant.cut_in > 0.0 ? plant.cut_in : plant.set_pressure;
    if (options.receiver_kpa_gauge) {
        pressure = plant.ambient_pressure + *options.receiver_kpa_gauge * 1e3;
    }
    system_.receiver_mass = system_.receiver_mass_at(pressure);
    system_.receiver_start_ = std::max(system_.receiver_mass, 1e-12);
    const bool was_on = options.compressor_on.value_or(false);
    system_.compressor_on = system_.limited() && plant.cut_out > 0.0 &&
                            (pressure <= plant.cut_in || (was_on && pressure < plant.cut_out));
    run_.compressor_starts = system_.compressor_on && !was_on ? 1 : 0;
    AirSystem::Rest rest;
    rest.ambient = options.air_on_now;
    rest.source = system_.source_pressure(system_.limited() ? pressure : plant.set_pressure);
    for (AirUnit& unit : system_.units) {
        const auto kept = std::ranges::find(options.kept, unit.model->id, &KeptAir::actuator);
        unit.kept = kept != options.kept.end() ? plant.ambient_pressure + kept->kpa_gauge * 1e3 : 0.0;
    }
    system_.settle(rest);
    if (options.filling && pressure < plant.set_pressure) {
        rest.rise = system_.rise_at_rest();
        system_.settle(rest);
    }
    for (AirUnit& unit : system_.units) {
        unit.supply_shut = options.air_on_now;
        // While the receiver is below the regulator's setting, what is supplied follows it.
        unit.awake = system_.limited() && pressure < plant.set_pressure;
        set_region(unit);
    }
}

void AirRunner::plan(double time, Kind kind, std::size_t unit, std::size_t stroke, Coil way) {
    planned_.push({time, orders_++, kind, unit, stroke, way});
}

Result<AirRun> AirRunner::run() {
    log_->begin();
    while (true) {
        const double until = planned_.empty() ? length_ : std::min(length_, planned_.top().time);
        if (time_ < until) {
            // A stretch of it: what happens in there may plan something earlier.
            const Result<void> done = any_awake() || crooked_ ? integrate(until) : pass_quietly(until);
            if (!done) {
                return tl::unexpected(done.error());
            }
            continue;
        }
        if (planned_.empty() || planned_.top().time > length_) {
            break;
        }
        const Planned now = planned_.top();
        planned_.pop();
        happen(now);
    }
    log_->finish(length_);
    run_.receiver_end_kpa = (system_.receiver_pressure() - system_.plant().ambient_pressure) * 1e-3;
    run_.compressor_on_at_end = system_.compressor_on;
    for (const AirUnit& unit : system_.units) {
        if (const double kept = system_.kept_pressure(unit); kept > 0.0) {
            run_.kept.push_back({unit.model->id, (kept - system_.plant().ambient_pressure) * 1e-3});
        }
    }
    std::erase_if(run_.actuators, [&](const ActuatorRun& each) { return !places_.contains(each.actuator); });
    return std::move(run_);
}

// What is planned ----------------------------------------------------------------------------------------

void AirRunner::happen(const Planned& planned) {
    const std::size_t unit = planned.unit;
    switch (planned.kind) {
        case Kind::command:
            take_command(unit, commands_[planned.stroke]);
            break;
        case Kind::shift:
            if (valves_[unit].shifting == planned.order) {
                try_shift(unit, planned.stroke, planned.way);
            }
            break;
        case Kind::felt:
            feel(unit, planned.stroke, planned.way);
            break;
        case Kind::open:
            break;  // the equations change where a valve is fully open
    }
}

void AirRunner::take_command(std::size_t unit, const StrokeCommand& command) {
    ValveState& valve = valves_[unit];
    if (valve.wanted == command.way) {
        return;
    }
    valve.wanted = command.way;
    const std::size_t stroke = log_->command(unit, command);
    if (valve.shifting || valve.waiting) {
        // The valve has not left the position it is now told to keep.
        valve.shifting.reset();
        valve.waiting.reset();
        return;
    }
    const ActuatorModel& model = *system_.units[unit].model;
    const double delay = command.way == Coil::out ? model.opening_delay : model.closing_delay;
    valve.shifting = orders_;
    plan(time_ + delay, Kind::shift, unit, stroke, command.way);
}

void AirRunner::try_shift(std::size_t unit, std::size_t stroke, Coil way) {
    ValveState& valve = valves_[unit];
    AirUnit& moved = system_.units[unit];
    valve.shifting.reset();
    const bool by_pilot = moved.model->least_pressure > 0.0 && (way == Coil::out || moved.model->two_coils);
    if (by_pilot && system_.pilot_pressure(moved) < moved.model->least_pressure) {
        valve.waiting = stroke;
        moved.awake = true;
        return;
    }
    valve.waiting.reset();
    shift(unit, stroke, way);
}

void AirRunner::shift(std::size_t unit, std::size_t stroke, Coil way) {
    const AirUnit& moved = system_.units[unit];
    log_->shifted(stroke);
    plan(time_ + moved.model->wave, Kind::felt, unit, stroke, way);
}

void AirRunner::feel(std::size_t unit, std::size_t stroke, Coil way) {
    AirUnit& moved = system_.units[unit];
    moved.supplied_out = way == Coil::out;
    moved.supply_shut = false;
    moved.opened_at = time_;
    moved.awake = true;
    log_->felt(time_, unit, stroke);
    if (moved.model->ramp > 0.0) {
        plan(time_ + moved.model->ramp, Kind::open, unit, stroke, way);
    }
}

// Quiet time ---------------------------------------------------------------------------------------------

bool AirRunner::any_awake() const {
    return std::ranges::any_of(system_.units, &AirUnit::awake);
}

bool AirRunner::passes_in_closed_form(double low) const {
    const PlantModel& plant = system_.plant();
    const bool straight = plant.delivery + plant.delivery_slope * low > 0.0 &&
                          plant.delivery + plant.delivery_slope * plant.cut_out > 0.0;
    const bool leak_choked = plant.leak.c == 0.0 || plant.ambient_pressure <= plant.leak.b * low;
    return plant.exponent == 1.0 && leak_choked && (straight || !system_.compressor_on);
}

Result<void> AirRunner::pass_quietly(double until) {
    const PlantModel& plant = system_.plant();
    if (!system_.limited()) {
        log_->quiet(time_, until, [&](double) { return plant.set_pressure; });
        time_ = until;
        return {};
    }
    const double pressure = system_.receiver_pressure();
    // m' = gain + rate m
    const double per_mass = gas_constant * plant.ambient_temperature / plant.receiver;
    const double leak =
        plant.leak.c * reference_density * std::sqrt(reference_temperature / plant.ambient_temperature);
    const double gain = system_.compressor_on ? plant.delivery : 0.0;
    const double rate = ((system_.compressor_on ? plant.delivery_slope : 0.0) - leak) * per_mass;
    const double slope = gain + rate * system_.receiver_mass;
    const double goal_pressure = system_.compressor_on ? plant.cut_out : plant.cut_in;
    const bool goes_there = system_.compressor_on ? slope > 0.0 : slope < 0.0 && plant.cut_in > 0.0;
    if (!passes_in_closed_form(std::min(pressure, goes_there ? goal_pressure : pressure))) {
        crooked_ = true;
        return {};
    }
    const double start = system_.receiver_mass;
    const auto mass_after = [=](double passed) {
        return std::abs(rate * passed) < 1e-9 ? start + slope * passed
                                              : start + slope * std::expm1(rate * passed) / rate;
    };
    double passes = until - time_;
    bool switches = false;
    if (goes_there) {
        const double way = system_.receiver_mass_at(goal_pressure) - start;
        const double grown = way * rate / slope;
        const double wait = std::abs(grown) < 1e-9 ? way / slope : std::log1p(grown) / rate;
        if (grown > -1.0 && wait <= passes) {
            passes = std::max(wait, 0.0);
            switches = true;
        }
    }
    log_->quiet(time_, switches ? time_ + passes : until,
                [&](double passed) { return system_.receiver_pressure(mass_after(passed)); });
    system_.receiver_mass = switches ? system_.receiver_mass_at(goal_pressure) : mass_after(passes);
    time_ = switches ? time_ + passes : until;
    if (switches) {
        system_.compressor_on = !system_.compressor_on;
        if (system_.compressor_on) {
            log_->compressor_starts();
        }
    }
    return {};
}

// Integration --------------------------------------------------------------------------------------------

void AirRunner::set_region(AirUnit& unit) const {
    const double cushion = unit.model->cushion;
    unit.region = cushion <= 0.0                               ? 0
                  : unit.travel < cushion                      ? -1
                  : unit.travel > unit.model->stroke - cushion ? 1
                                                               : 0;
}

double AirRunner::holding_force(const AirUnit& unit) const {
    // A whiff above the friction itself, so that what is let go does move.
    constexpr double share = 1e-7;
    return unit.model->static_friction + share * system_.plant().ambient_pressure * unit.model->out_area;
}

bool AirRunner::released(const AirUnit& unit, double force) const {
    const double held = holding_force(unit);
    return (force > held && unit.hold != Hold::at_out) || (force < -held && unit.hold != Hold::at_back);
}

void AirRunner::release_held() {
    for (std::size_t i = 0; i < system_.units.size(); ++i) {
        AirUnit& unit = system_.units[i];
        if (unit.awake && !moves(unit.hold)) {
            const double force = system_.net_force(unit);
            if (released(unit, force)) {
                unit.hold = force > 0.0 ? Hold::moving_out : Hold::moving_back;
                unit.speed = 0.0;
                log_->starts(time_, i);
            }
        }
    }
}

void AirRunner::lay_out() {
    bool moving = false;
    bool clocked = false;
    for (const AirUnit& unit : system_.units) {
        moving = moving || (unit.awake && moves(unit.hold));
        clocked =
            clocked || (unit.awake && unit.model->ramp > 0.0 && time_ < unit.opened_at + unit.model->ramp);
    }
    system_.lay_out(y_, time_, clocked);
    explicit_.resize(y_.size());
    implicit_.resize(y_.size());
    slopes_.resize(y_.size());
    explicit_.restart();
    implicit_.restart();
    stiff_steps_ = 0;
    stiff_ = false;
    step_ = moving ? static_cast<Step*>(&explicit_) : &implicit_;
}

Result<void> AirRunner::integrate(double until) {
    release_held();
    lay_out();
    next_step_ = std::min(next_step_, first_step);
    while (time_ < until) {
        const Result<bool> goes_on = advance(until);
        if (!goes_on) {
            return tl::unexpected(goes_on.error());
        }
        if (!*goes_on) {
            return {};
        }
    }
    crooked_ = false;
    return {};
}

Result<bool> AirRunner::advance(double until) {
    constexpr double cautious = 0.9;
    constexpr double least_change = 0.2;
    constexpr double most_change = 6.0;
    constexpr std::size_t ask_every = 256;  // steps
    if (stopped_ && run_.steps % ask_every == 0 && stopped_()) {
        return fail("the simulation was given up");
    }
    system_.set_tolerance(tolerances_, y_.data(), tolerance_);
    double wanted = next_step_;
    while (true) {
        const double rest = until - time_;
        const double length = wanted >= rest * (1.0 - 1e-12) ? rest : std::min(wanted, rest);
        if (++run_.steps > most_steps_ || (length < least_step && length < rest)) {
            return tl::unexpected(stuck_error());
        }
        const double error = step_->attempt(system_, y_, length, tolerances_);
        const double change = std::clamp(cautious * std::pow(std::max(error, 1e-8), -1.0 / step_->order()),
                                         least_change, most_change);
        if (!(error <= 1.0)) {
            wanted = length * std::min(change, cautious);
            continue;
        }
        Found found = first_event();
        double taken = length;
        if (found.share <= 1.0) {
            taken = length * found.share;
            if (taken > 0.0 && !(step_->attempt(system_, y_, taken, tolerances_) <= 1.0)) {
                wanted = taken;
                continue;
            }
        } else {
            next_step_ = length < wanted ? std::max(wanted, length * change) : length * change;
        }
        if (taken > 0.0) {
            accept(taken);
        }
        if (length == rest && found.share > 1.0) {
            time_ = until;
        }
        if (found.share <= 1.0) {
            apply(found);
            return false;
        }
        break;
    }
    if (step_ == &explicit_) {
        constexpr double stability = 3.0;
        constexpr int patience = 10;
        stiff_steps_ = explicit_.stiffness() > stability ? stiff_steps_ + 1 : 0;
        if (stiff_steps_ > patience) {
            step_ = &implicit_;
            stiff_ = true;
            implicit_.restart();
        }
    } else if (!stiff_) {
        put_to_sleep();
    }
    return any_awake() || crooked_;
}

void AirRunner::accept(double length) {
    after_.assign(step_->result().begin(), step_->result().end());
    log_->stretch({time_, length, step_, &y_, &after_});
    step_->carry_on();
    y_ = after_;
    time_ += length;
    system_.take_back(y_.data());
}

void AirRunner::put_to_sleep() {
    constexpr double asleep = 2e-6;  // share of a chamber's air and energy a second
    if (system_.limited() && system_.receiver_pressure() < system_.plant().set_pressure) {
        return;
    }
    system_.derive(y_.data(), slopes_.data());
    bool changed = false;
    for (std::size_t i = 0; i < system_.units.size(); ++i) {
        AirUnit& unit = system_.units[i];
        if (!unit.awake || moves(unit.hold) || valves_[i].waiting) {
            continue;
        }
        const std::size_t end = AirSystem::reservoir_of(unit) + (unit.has_reservoir() ? 1 : 0);
        bool still = true;
        for (std::size_t place = unit.first; place < end; ++place) {
            still = still && std::abs(slopes_[place]) <= asleep * y_[place];
        }
        if (still) {
            unit.awake = false;
            changed = true;
        }
    }
    if (changed && any_awake()) {
        lay_out();
    }
}

Error AirRunner::stuck_error() const {
    const auto busy = std::ranges::find_if(system_.units, &AirUnit::awake);
    const std::string name = busy != system_.units.end() ? busy->model->name : "air plant";
    return {fmt::format("the motion of \"{}\" cannot be worked out at {:.3f} s", name, time_), "actuator",
            "Look for a volume, a conductance or a mass that is far too small or too large"};
}

}  // namespace gasp
