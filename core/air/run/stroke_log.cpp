// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/stroke_log.hpp"

#include "core/air/run/crossing.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr std::array<double, 3> shares_noted{0.10, 0.50, 0.95};
constexpr std::size_t strike_place = 2;
constexpr double curve_error = 5e-4;
constexpr double slow_speed = 1e-3;  // m/s
constexpr double stall_time = 0.2;   // s
constexpr double bounce_share = 0.01;

}  // namespace

StrokeLog::StrokeLog(const AirSystem& system, AirRun& run, bool curves)
    : system_(system),
      run_(run),
      curves_(curves),
      watches_(system.units.size()),
      receiver_(run.receiver_kpa, curve_error, system.plant().ambient_pressure / 1e3) {
    run_.actuators.resize(system.units.size());
    const double ambient = system.plant().ambient_pressure / 1e3;
    for (std::size_t i = 0; i < system.units.size(); ++i) {
        run_.actuators[i].actuator = system.units[i].model->id;
        out_.emplace_back(run_.actuators[i].out_kpa, curve_error, ambient);
        back_.emplace_back(run_.actuators[i].back_kpa, curve_error, ambient);
        reservoir_.emplace_back(run_.actuators[i].reservoir_kpa, curve_error, ambient);
    }
}

double StrokeLog::gauge_kpa(double pressure) const {
    return (pressure - system_.plant().ambient_pressure) / 1e3;
}

void StrokeLog::begin() {
    run_.lowest_receiver_kpa = gauge_kpa(system_.receiver_pressure());
    note_receiver(0.0, system_.receiver_pressure());
    for (std::size_t i = 0; i < watches_.size(); ++i) {
        if (curves_) {
            run_.actuators[i].motion.points.push_back(
                {0.0, system_.units[i].travel / system_.units[i].model->stroke, 0.0});
        }
        draw_point(0.0, i);
    }
}

void StrokeLog::note_receiver(double time, double pressure) {
    const double kpa = gauge_kpa(pressure);
    if (kpa < run_.lowest_receiver_kpa) {
        run_.lowest_receiver_kpa = kpa;
        run_.lowest_at = Micros{std::llround(time * 1e6)};
    }
    for (const Watch& watch : watches_) {
        if (watch.latest) {
            double& lowest = run_.strokes[*watch.latest].lowest_receiver_kpa;
            lowest = std::min(lowest, kpa);
        }
    }
    if (curves_) {
        receiver_.add(time, kpa);
    }
}

double StrokeLog::progress(const Stroke& stroke, const AirUnit& unit, double travel) const {
    const double share = travel / unit.model->stroke;
    return stroke.command.way == Coil::out ? share : 1.0 - share;
}

void StrokeLog::close_air(std::size_t unit) {
    Watch& watch = watches_[unit];
    if (watch.latest) {
        Stroke& stroke = run_.strokes[*watch.latest];
        stroke.free_air_l = free_air_volume(watch.supplied - watch.supplied_at_command) * 1e3;
        stroke.left_receiver_l = free_air_volume(watch.drawn - watch.drawn_at_command) * 1e3;
        run_.free_air_l += stroke.free_air_l;
        run_.left_receiver_l += stroke.left_receiver_l;
    }
    watch.supplied_at_command = watch.supplied;
    watch.drawn_at_command = watch.drawn;
}

std::size_t StrokeLog::command(std::size_t unit, const StrokeCommand& command) {
    close_air(unit);
    Watch& watch = watches_[unit];
    watch.latest = run_.strokes.size();
    Stroke stroke;
    stroke.command = command;
    stroke.receiver_kpa = gauge_kpa(system_.receiver_pressure());
    stroke.lowest_receiver_kpa = stroke.receiver_kpa;
    const AirUnit& moved = system_.units[unit];
    stroke.furthest = progress(stroke, moved, moved.travel);
    for (std::size_t i = 0; i < shares_noted.size(); ++i) {
        if (stroke.furthest >= shares_noted[i]) {
            stroke.reached_s[i] = 0.0;
        }
    }
    if (stroke.furthest >= 1.0) {
        stroke.reached_s[3] = 0.0;
    }
    run_.strokes.push_back(stroke);
    return *watch.latest;
}

void StrokeLog::felt(double time, std::size_t unit, std::size_t place) {
    close_motion(time, unit, true);
    Watch& watch = watches_[unit];
    watch.acting = place;
    const AirUnit& moved = system_.units[unit];
    Stroke& stroke = run_.strokes[*watch.acting];
    watch.furthest = progress(stroke, moved, moved.travel);
    watch.arrived = false;
    watch.strike_noted = false;
    watch.slow_since.reset();
    const bool there = moved.hold == (stroke.command.way == Coil::out ? Hold::at_out : Hold::at_back);
    if (there) {
        watch.arrived = true;
        note_strike(unit, system_.receiver_pressure(),
                    working_pressure(moved, stroke.command.way, nullptr, 0.0));
    }
    note_slowness(time, unit, moved.speed);
}

void StrokeLog::note_strike(std::size_t unit, double receiver, double working) {
    Watch& watch = watches_[unit];
    if (!watch.strike_noted && watch.acting) {
        run_.strokes[*watch.acting].receiver_at_strike_kpa = gauge_kpa(receiver);
        run_.strokes[*watch.acting].working_at_strike_kpa = gauge_kpa(working);
        watch.strike_noted = true;
    }
}

double StrokeLog::working_pressure(const AirUnit& unit, Coil way, const Stretch* stretch,
                                   double share) const {
    const auto value = [&](std::size_t place, double otherwise) {
        return stretch != nullptr ? stretch->step->at(place, share) : otherwise;
    };
    const double travel =
        stretch != nullptr && moves(unit.hold) ? stretch->step->at(unit.first, share) : unit.travel;
    const std::size_t out = AirSystem::out_of(unit);
    if (way == Coil::out) {
        return system_
            .out_point(unit, {value(out, unit.out_air.mass), value(out + 1, unit.out_air.energy)}, travel)
            .pressure;
    }
    if (!unit.model->back_is_air) {
        return system_.plant().ambient_pressure;
    }
    return system_
        .back_point(unit, {value(out + 2, unit.back_air.mass), value(out + 3, unit.back_air.energy)}, travel)
        .pressure;
}

void StrokeLog::count_air(const Stretch& stretch, std::size_t unit) {
    const AirUnit& fed = system_.units[unit];
    const auto gained = [&](std::size_t place) { return (*stretch.to)[place] - (*stretch.from)[place]; };
    Watch& watch = watches_[unit];
    double supplied = 0.0;
    if (fed.supplied_out) {
        supplied = gained(AirSystem::out_of(fed));
    } else if (fed.model->back_is_air) {
        supplied = gained(AirSystem::back_of(fed));
    }
    watch.supplied += supplied;
    watch.drawn += supplied + (fed.has_reservoir() ? gained(AirSystem::reservoir_of(fed)) : 0.0);
}

void StrokeLog::note_shares(const Stretch& stretch, std::size_t unit, double from, double to) {
    Watch& watch = watches_[unit];
    Stroke& stroke = run_.strokes[*watch.acting];
    const AirUnit& moved = system_.units[unit];
    for (std::size_t i = 0; i < shares_noted.size(); ++i) {
        if (to < shares_noted[i] || stroke.reached_s[i]) {
            continue;
        }
        const auto past = [&](double share) {
            return progress(stroke, moved, stretch.step->at(moved.first, share)) - shares_noted[i];
        };
        const double share =
            from < shares_noted[i] ? crossing(past, from - shares_noted[i], to - shares_noted[i]) : 0.0;
        stroke.reached_s[i] = stretch.begin + share * stretch.length - to_s(stroke.command.time);
        if (i == strike_place) {
            const double receiver =
                system_.limited()
                    ? system_.receiver_pressure(stretch.step->at(system_.receiver_place(), share))
                    : system_.receiver_pressure();
            note_strike(unit, receiver, working_pressure(moved, stroke.command.way, &stretch, share));
        }
    }
}

void StrokeLog::note_force(const AirUnit& unit, Stroke& stroke, double speed) {
    const Gearing gearing = unit.model->mechanism.at(unit.travel);
    const double weight = unit.model->mass * standard_gravity * gearing.height_slope;
    double thrust = 0.0;
    if (moves(unit.hold)) {
        const double mass = unit.model->rod_mass + unit.model->mass * gearing.path_squared;
        thrust = mass * system_.acceleration(unit, system_.net_force(unit), speed, gearing);
    }
    stroke.peak_force_n = std::max(stroke.peak_force_n, std::abs(thrust + weight));
}

void StrokeLog::note_slowness(double time, std::size_t unit, double speed) {
    Watch& watch = watches_[unit];
    const AirUnit& moved = system_.units[unit];
    if (!watch.acting || watch.arrived || std::abs(speed) >= slow_speed) {
        watch.slow_since.reset();
        return;
    }
    const bool driven =
        run_.strokes[*watch.acting].command.way == Coil::out ? moved.supplied_out : !moved.supplied_out;
    if (!driven) {
        return;
    }
    if (!watch.slow_since) {
        watch.slow_since = time;
    }
}

void StrokeLog::note_motion(const Stretch& stretch, std::size_t unit) {
    const AirUnit& moved = system_.units[unit];
    Watch& watch = watches_[unit];
    const double end = stretch.begin + stretch.length;
    if (!moves(moved.hold)) {
        note_slowness(end, unit, 0.0);
        return;
    }
    const double speed = (*stretch.to)[AirSystem::speed_of(moved)];
    if (watch.acting) {
        Stroke& stroke = run_.strokes[*watch.acting];
        const double from = progress(stroke, moved, (*stretch.from)[moved.first]);
        const double to = progress(stroke, moved, (*stretch.to)[moved.first]);
        note_shares(stretch, unit, from, to);
        watch.furthest = std::max(watch.furthest, to);
        stroke.bounces = stroke.bounces || (!watch.arrived && watch.furthest - to > bounce_share);
        note_force(moved, stroke, speed);
    }
    note_slowness(end, unit, speed);
}

void StrokeLog::draw(const Stretch& stretch, std::size_t unit) {
    const AirUnit& moved = system_.units[unit];
    const double stroke = moved.model->stroke;
    const double end = stretch.begin + stretch.length;
    if (moves(moved.hold)) {
        const auto at = [&](double time) {
            const double share = std::clamp((time - stretch.begin) / stretch.length, 0.0, 1.0);
            return MotionPoint{time, stretch.step->at(moved.first, share) / stroke,
                               stretch.step->at(AirSystem::speed_of(moved), share) / stroke};
        };
        add_motion(
            run_.actuators[unit].motion,
            {end, (*stretch.to)[moved.first] / stroke, (*stretch.to)[AirSystem::speed_of(moved)] / stroke},
            at);
    }
    constexpr int parts = 4;
    for (int i = 1; i <= parts; ++i) {
        const double share = static_cast<double>(i) / parts;
        const double time = stretch.begin + share * stretch.length;
        out_[unit].add(time, gauge_kpa(working_pressure(moved, Coil::out, &stretch, share)));
        if (moved.model->back_is_air) {
            back_[unit].add(time, gauge_kpa(working_pressure(moved, Coil::back, &stretch, share)));
        }
        if (moved.has_reservoir()) {
            reservoir_[unit].add(
                time, gauge_kpa(stretch.step->at(AirSystem::reservoir_of(moved), share) * gas_constant *
                                system_.plant().ambient_temperature / moved.model->reservoir));
        }
    }
}

void StrokeLog::draw_point(double time, std::size_t unit) {
    if (!curves_) {
        return;
    }
    const AirUnit& still = system_.units[unit];
    out_[unit].add(time, gauge_kpa(working_pressure(still, Coil::out, nullptr, 0.0)));
    if (still.model->back_is_air) {
        back_[unit].add(time, gauge_kpa(working_pressure(still, Coil::back, nullptr, 0.0)));
    }
    if (still.has_reservoir()) {
        reservoir_[unit].add(time, gauge_kpa(system_.pilot_pressure(still)));
    }
}

void StrokeLog::stretch(const Stretch& stretch) {
    for (std::size_t i = 0; i < watches_.size(); ++i) {
        if (!system_.units[i].awake) {
            continue;
        }
        count_air(stretch, i);
        note_motion(stretch, i);
        if (curves_) {
            draw(stretch, i);
        }
    }
    if (system_.compressor_on) {
        run_.compressor_on_s += stretch.length;
    }
    if (system_.limited()) {
        const std::size_t place = system_.receiver_place();
        if (curves_) {
            note_receiver(stretch.begin + stretch.length / 2.0,
                          system_.receiver_pressure(stretch.step->at(place, 0.5)));
        }
        note_receiver(stretch.begin + stretch.length, system_.receiver_pressure((*stretch.to)[place]));
    }
}

void StrokeLog::quiet(double begin, double end, const std::function<double(double)>& receiver_pressure) {
    if (system_.compressor_on) {
        run_.compressor_on_s += end - begin;
    }
    constexpr int parts = 8;
    for (int i = 0; i <= parts; ++i) {
        const double time = i == parts ? end : begin + (end - begin) * i / parts;
        note_receiver(time, receiver_pressure(time - begin));
    }
    for (std::size_t i = 0; i < watches_.size(); ++i) {
        note_slowness(end, i, 0.0);
    }
}

void StrokeLog::starts(double time, std::size_t unit) {
    const AirUnit& moved = system_.units[unit];
    if (watches_[unit].acting) {
        note_force(moved, run_.strokes[*watches_[unit].acting], 0.0);
    }
    std::vector<MotionPoint>& points = run_.actuators[unit].motion.points;
    if (curves_ && points.back().time_s < time) {
        points.push_back({time, moved.travel / moved.model->stroke, 0.0});
    }
}

void StrokeLog::meets_stop(double time, std::size_t unit, double speed) {
    const AirUnit& moved = system_.units[unit];
    const double share = moved.travel / moved.model->stroke;
    if (curves_) {
        run_.actuators[unit].motion.points.push_back({time, share, 0.0});
    }
    Watch& watch = watches_[unit];
    if (!watch.acting) {
        return;
    }
    Stroke& stroke = run_.strokes[*watch.acting];
    const bool at_its_end = progress(stroke, moved, moved.travel) > 0.5;
    if (!at_its_end || watch.arrived) {
        return;
    }
    watch.arrived = true;
    watch.furthest = 1.0;
    if (!stroke.reached_s[3]) {
        stroke.reached_s[3] = time - to_s(stroke.command.time);
    }
    const Gearing gearing = moved.model->mechanism.at(moved.travel);
    stroke.end_speed_m_s = std::abs(speed);
    stroke.end_energy_j =
        0.5 * (moved.model->rod_mass + moved.model->mass * gearing.path_squared) * speed * speed;
}

void StrokeLog::close_motion(double time, std::size_t unit, bool superseded) {
    Watch& watch = watches_[unit];
    if (!watch.acting) {
        return;
    }
    note_slowness(time, unit, system_.units[unit].speed);
    Stroke& stroke = run_.strokes[*watch.acting];
    const AirUnit& moved = system_.units[unit];
    note_strike(unit, system_.receiver_pressure(), working_pressure(moved, stroke.command.way, nullptr, 0.0));
    stroke.furthest = std::max(stroke.furthest, std::min(1.0, watch.furthest));
    const bool stalled = watch.slow_since && time - *watch.slow_since >= stall_time;
    stroke.end = watch.arrived ? StrokeEnd::arrives
                 : stalled     ? StrokeEnd::stalls
                 : superseded  ? StrokeEnd::turned
                               : StrokeEnd::unfinished;
    watch.acting.reset();
}

void StrokeLog::finish(double time) {
    note_receiver(time, system_.receiver_pressure());
    for (std::size_t i = 0; i < watches_.size(); ++i) {
        close_motion(time, i, false);
        close_air(i);
        draw_point(time, i);
        out_[i].finish();
        back_[i].finish();
        reservoir_[i].finish();
    }
    receiver_.finish();
}

}  // namespace gasp
