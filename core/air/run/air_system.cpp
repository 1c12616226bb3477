// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_system.hpp"

#include "core/air/model/force_balance.hpp"
#include "core/air/run/filling.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp {
namespace {

Chamber chamber(const ActuatorModel& model, double area) {
    const double girth = std::numbers::pi * model.bore;
    return {area, model.dead_volume + model.tube_volume, 2.0 * area + girth * model.dead_volume / area,
            girth};
}

ChamberAir air_at(double pressure, double temperature, double volume) {
    return {pressure * volume / (gas_constant * temperature), pressure * volume / (heat_ratio - 1.0)};
}

}  // namespace

AirSystem::AirSystem(const PlantModel& plant) : plant_(plant), leak_(plant.leak) {}

void AirSystem::add(const ActuatorModel& model) {
    AirUnit unit;
    unit.model = &model;
    unit.out = chamber(model, model.out_area);
    unit.back = chamber(model, model.back_area);
    unit.supply = FlowPath(model.supply);
    unit.exhaust = FlowPath(model.exhaust);
    unit.cushioned = FlowPath(model.cushioned_exhaust);
    unit.feed = FlowPath(model.feed);
    units.push_back(unit);
}

double AirSystem::warmth(const ActuatorModel& model, double volume, double surface, double rise) const {
    return model.law == ChamberLaw::wall_heat
               ? temperature_while_filling(volume, model.heat_transfer * surface, rise,
                                           plant_.ambient_temperature)
               : plant_.ambient_temperature;
}

void AirSystem::settle(AirUnit& unit, const Rest& all) const {
    const ActuatorModel& model = *unit.model;
    Rest rest = all;
    if (unit.kept > all.source) {
        rest.source = std::min(unit.kept, plant_.set_pressure);
        rest.rise = 0.0;
    }
    const double around = plant_.ambient_pressure;
    const double temperature = plant_.ambient_temperature;
    unit.reservoir_mass = rest.source * model.reservoir / (gas_constant * temperature);
    const auto filled = [&](const Chamber& end, double way, bool supplied) {
        const double volume = end.closed_volume + end.area * way;
        return rest.ambient || !supplied
                   ? air_at(around, temperature, volume)
                   : air_at(rest.source,
                            warmth(model, volume, end.closed_surface + end.girth * way, rest.rise), volume);
    };
    const auto fill = [&] {
        unit.out_air = filled(unit.out, unit.travel, unit.supplied_out);
        unit.back_air = filled(unit.back, model.stroke - unit.travel, !unit.supplied_out);
    };
    unit.speed = 0.0;
    unit.travel = unit.supplied_out ? model.stroke : 0.0;
    fill();
    // It rests at the other end where that is where its load takes it.
    const double force = net_force(unit);
    const double wanted = unit.supplied_out ? -1.0 : 1.0;
    if (force * wanted > model.static_friction) {
        const double here = unit.travel;
        unit.travel = model.stroke - here;
        fill();
        if (net_force(unit) * wanted < -model.static_friction) {
            unit.travel = here;
            fill();
        }
    }
    unit.hold = unit.travel > 0.0 ? Hold::at_out : Hold::at_back;
}

void AirSystem::settle(const Rest& rest) {
    for (AirUnit& unit : units) {
        settle(unit, rest);
    }
}

double AirSystem::kept_pressure(const AirUnit& unit) const {
    if (unit.has_reservoir()) {
        return unit.reservoir_mass * gas_constant * plant_.ambient_temperature / unit.model->reservoir;
    }
    if (unit.supplied_out) {
        return out_point(unit, unit.out_air, unit.travel).pressure;
    }
    return unit.model->back_is_air ? back_point(unit, unit.back_air, unit.travel).pressure : 0.0;
}

double AirSystem::rise_at_rest() const {
    const double pressure = receiver_pressure();
    const double gain = compressor_flow(pressure) - leak_flow(pressure, plant_.ambient_temperature);
    const double lift = gain * gas_constant * plant_.ambient_temperature;
    double rise = 0.0;
    // Air that gets warm takes less room: the second time that is known.
    for (int i = 0; i < 3; ++i) {
        double open = plant_.receiver;
        for (const AirUnit& unit : units) {
            open += unit.kept > pressure ? 0.0 : room_of(unit, rise);
        }
        rise = lift / open;
    }
    return rise;
}

double AirSystem::room_of(const AirUnit& unit, double rise) const {
    const ActuatorModel& model = *unit.model;
    const auto room = [&](const Chamber& end, double way) {
        const double volume = end.closed_volume + end.area * way;
        const double surface = end.closed_surface + end.girth * way;
        return volume * plant_.ambient_temperature / warmth(model, volume, surface, rise);
    };
    double all = model.reservoir;
    if (unit.supplied_out) {
        all += room(unit.out, unit.travel);
    } else if (model.back_is_air) {
        all += room(unit.back, model.stroke - unit.travel);
    }
    return all;
}

void AirSystem::lay_out(std::vector<double>& y, double time, bool clocked) {
    y.clear();
    for (AirUnit& unit : units) {
        if (!unit.awake) {
            continue;
        }
        unit.first = y.size();
        if (moves(unit.hold)) {
            y.insert(y.end(), {unit.travel, unit.speed});
        }
        y.insert(y.end(), {unit.out_air.mass, unit.out_air.energy});
        if (unit.model->back_is_air) {
            y.insert(y.end(), {unit.back_air.mass, unit.back_air.energy});
        }
        if (unit.has_reservoir()) {
            y.push_back(unit.reservoir_mass);
        }
    }
    receiver_place_ = y.size();
    if (limited()) {
        y.push_back(receiver_mass);
    }
    clock_place_ = y.size();
    clocked_ = clocked;
    now_ = time;
    if (clocked) {
        y.push_back(time);
    }
}

void AirSystem::take_back(const double* y) {
    for (AirUnit& unit : units) {
        if (!unit.awake) {
            continue;
        }
        if (moves(unit.hold)) {
            unit.travel = y[unit.first];
            unit.speed = y[speed_of(unit)];
        }
        unit.out_air = {y[out_of(unit)], y[out_of(unit) + 1]};
        if (unit.model->back_is_air) {
            unit.back_air = {y[back_of(unit)], y[back_of(unit) + 1]};
        }
        if (unit.has_reservoir()) {
            unit.reservoir_mass = y[reservoir_of(unit)];
        }
    }
    if (limited()) {
        receiver_mass = y[receiver_place_];
    }
}

void AirSystem::set_tolerance(std::vector<double>& tolerance, const double* y, double relative) const {
    tolerance.resize(clock_place_ + (clocked_ ? 1 : 0));
    for (std::size_t i = 0; i < tolerance.size(); ++i) {
        tolerance[i] = relative * std::abs(y[i]);
    }
    constexpr double usual_speed = 1.0;  // m/s, below which speeds count absolutely
    for (const AirUnit& unit : units) {
        if (unit.awake && moves(unit.hold)) {
            tolerance[unit.first] = relative * unit.model->stroke;
            tolerance[speed_of(unit)] = relative * std::max(usual_speed, std::abs(y[speed_of(unit)]));
        }
    }
    if (clocked_) {
        tolerance[clock_place_] = 1.0;
    }
}

double AirSystem::receiver_pressure(double mass) const {
    if (!limited()) {
        return plant_.set_pressure;
    }
    const double isothermal = gas_constant * plant_.ambient_temperature / plant_.receiver;
    return plant_.exponent == 1.0
               ? mass * isothermal
               : receiver_start_ * isothermal * std::pow(mass / receiver_start_, plant_.exponent);
}

double AirSystem::receiver_mass_at(double pressure) const {
    return limited() ? pressure * plant_.receiver / (gas_constant * plant_.ambient_temperature) : 0.0;
}

double AirSystem::pilot_pressure(const AirUnit& unit) const {
    return pilot_pressure(unit, unit.has_reservoir() ? unit.reservoir_mass : receiver_mass);
}

double AirSystem::pilot_pressure(const AirUnit& unit, double mass) const {
    return unit.has_reservoir() ? mass * gas_constant * plant_.ambient_temperature / unit.model->reservoir
                                : source_pressure(receiver_pressure(mass));
}

double AirSystem::compressor_flow(double pressure) const {
    return compressor_on ? std::max(0.0, plant_.delivery + plant_.delivery_slope * pressure) : 0.0;
}

double AirSystem::leak_flow(double pressure, double temperature) const {
    return leak_.shut()
               ? 0.0
               : leak_.flow(pressure, temperature, plant_.ambient_pressure, plant_.ambient_temperature);
}

ChamberPoint AirSystem::point(const ActuatorModel& model, const ChamberAir& air, double volume) const {
    const double around = plant_.ambient_temperature;
    if (model.law == ChamberLaw::isothermal) {
        return {air.mass * gas_constant * around / volume, around};
    }
    if (model.law == ChamberLaw::polytropic) {
        const double density = air.mass / volume;
        const double ratio = density * gas_constant * around / plant_.ambient_pressure;
        const double pressure = plant_.ambient_pressure * std::pow(ratio, model.exponent);
        return {pressure, pressure / (density * gas_constant)};
    }
    return {(heat_ratio - 1.0) * air.energy / volume, air.energy / (air.mass * heat_cv)};
}

ChamberPoint AirSystem::out_point(const AirUnit& unit, const ChamberAir& air, double travel) const {
    return point(*unit.model, air, unit.out.closed_volume + unit.out.area * travel);
}

ChamberPoint AirSystem::back_point(const AirUnit& unit, const ChamberAir& air, double travel) const {
    if (!unit.model->back_is_air) {
        return {plant_.ambient_pressure, plant_.ambient_temperature};
    }
    return point(*unit.model, air, unit.back.closed_volume + unit.back.area * (unit.model->stroke - travel));
}

double AirSystem::net_force(const AirUnit& unit, double travel, double out_pressure, double back_pressure,
                            const Gearing& gearing) const {
    const ActuatorModel& model = *unit.model;
    return (out_pressure - plant_.ambient_pressure) * model.out_area -
           (back_pressure - plant_.ambient_pressure) * model.back_area - load_force(model, travel, gearing);
}

double AirSystem::net_force(const AirUnit& unit) const {
    return net_force(unit, unit.travel, out_point(unit, unit.out_air, unit.travel).pressure,
                     back_point(unit, unit.back_air, unit.travel).pressure,
                     unit.model->mechanism.at(unit.travel));
}

double AirSystem::acceleration(const AirUnit& unit, double force, double speed,
                               const Gearing& gearing) const {
    const ActuatorModel& model = *unit.model;
    const double friction = unit.direction() * model.moving_friction + model.viscous * speed;
    return (force - friction - model.mass * gearing.path_bend * speed * speed) /
           (model.rod_mass + model.mass * gearing.path_squared);
}

AirSystem::Flow AirSystem::supply_flow(const AirUnit& unit, const double* y,
                                       const ChamberPoint& chamber) const {
    if (unit.has_reservoir()) {
        const double around = plant_.ambient_temperature;
        const double pressure = y[reservoir_of(unit)] * gas_constant * around / unit.model->reservoir;
        const double flow = unit.supply.flow(pressure, around, chamber.pressure, chamber.temperature);
        return {flow, flow >= 0.0 ? around : chamber.temperature};
    }
    const double flow = chamber.pressure < source_
                            ? unit.supply.one_way(source_, source_temperature_, chamber.pressure)
                            : 0.0;
    return {flow, source_temperature_};
}

AirSystem::Flow AirSystem::exhaust_flow(const AirUnit& unit, const ChamberPoint& chamber,
                                        bool cushioned) const {
    const FlowPath& path = cushioned ? unit.cushioned : unit.exhaust;
    const double flow =
        path.flow(chamber.pressure, chamber.temperature, plant_.ambient_pressure, plant_.ambient_temperature);
    return {-flow, flow >= 0.0 ? chamber.temperature : plant_.ambient_temperature};
}

double AirSystem::opening(const AirUnit& unit) const {
    if (!clocked_ || unit.model->ramp <= 0.0) {
        return 1.0;
    }
    return std::clamp((now_ - unit.opened_at) / unit.model->ramp, 0.0, 1.0);
}

void AirSystem::derive_chamber(const AirUnit& unit, const Chamber& chamber, const ChamberPoint& point,
                               const Flow& flow, double opened, double growth, double* slopes) const {
    const double mass = flow.mass * opened;
    slopes[0] = mass;
    const ChamberLaw law = unit.model->law;
    if (law == ChamberLaw::isothermal || law == ChamberLaw::polytropic) {
        slopes[1] = 0.0;
        return;
    }
    slopes[1] = mass * heat_cp * flow.temperature - point.pressure * chamber.area * growth;
}

void AirSystem::derive_unit(const AirUnit& unit, const double* y, double* slopes) {
    const ActuatorModel& model = *unit.model;
    const bool moving = moves(unit.hold);
    const double travel = moving ? y[unit.first] : unit.travel;
    const double speed = moving ? y[speed_of(unit)] : 0.0;
    const double opened = opening(unit);
    const std::size_t a = out_of(unit);
    const std::size_t b = back_of(unit);
    const ChamberPoint out = out_point(unit, {y[a], y[a + 1]}, travel);
    const ChamberPoint back = model.back_is_air
                                  ? back_point(unit, {y[b], y[b + 1]}, travel)
                                  : ChamberPoint{plant_.ambient_pressure, plant_.ambient_temperature};
    double supplied = 0.0;
    const auto derive_end = [&](const Chamber& end, const ChamberPoint& point, bool supply,
                                int cushion_region, double way, double growth, std::size_t place) {
        const Flow flow =
            supply ? supply_flow(unit, y, point) : exhaust_flow(unit, point, unit.region == cushion_region);
        const double open = supply && unit.supply_shut ? 0.0 : opened;
        derive_chamber(unit, end, point, flow, open, growth, slopes + place);
        if (model.law == ChamberLaw::wall_heat) {
            slopes[place + 1] += model.heat_transfer * (end.closed_surface + end.girth * way) *
                                 (plant_.ambient_temperature - point.temperature);
        }
        supplied += supply ? flow.mass * open : 0.0;
    };
    derive_end(unit.out, out, unit.supplied_out, -1, travel, speed, a);
    if (model.back_is_air) {
        derive_end(unit.back, back, !unit.supplied_out, 1, model.stroke - travel, -speed, b);
    }
    if (moving) {
        const Gearing gearing = model.mechanism.at(travel);
        const double force = net_force(unit, travel, out.pressure, back.pressure, gearing);
        slopes[unit.first] = speed;
        slopes[speed_of(unit)] = acceleration(unit, force, speed, gearing);
    }
    if (unit.has_reservoir()) {
        const std::size_t r = reservoir_of(unit);
        const double pressure = y[r] * gas_constant * plant_.ambient_temperature / model.reservoir;
        const double fed =
            pressure < source_ ? unit.feed.one_way(source_, source_temperature_, pressure) : 0.0;
        slopes[r] = fed - supplied;
        supplied = fed;
    }
    drawn_ += supplied;
}

void AirSystem::derive(const double* y, double* slopes) {
    const double receiver = limited() ? receiver_pressure(y[receiver_place_]) : plant_.set_pressure;
    source_ = source_pressure(receiver);
    source_temperature_ = plant_.ambient_temperature;
    if (plant_.exponent != 1.0 && limited()) {
        source_temperature_ = receiver * plant_.receiver / (y[receiver_place_] * gas_constant);
    }
    drawn_ = 0.0;
    if (clocked_) {
        now_ = y[clock_place_];
        slopes[clock_place_] = 1.0;
    }
    for (const AirUnit& unit : units) {
        if (unit.awake) {
            derive_unit(unit, y, slopes);
        }
    }
    if (limited()) {
        slopes[receiver_place_] =
            compressor_flow(receiver) - leak_flow(receiver, source_temperature_) - drawn_;
    }
}

}  // namespace gasp
