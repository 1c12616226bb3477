// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_runner.hpp"
#include "core/air/run/crossing.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

// What happens within a step -------------------------------------------------------------------------------

template <class F>
void AirRunner::look(F value, double at_start, double at_end, What what, std::size_t unit,
                     Found& found) const {
    if (at_end <= 0.0) {
        return;
    }
    const double share = at_start < 0.0 ? crossing(value, at_start, at_end) : 0.0;
    if (share < found.share) {
        found = {share, what, unit};
    }
}

void AirRunner::look_at_motion(std::size_t index, Found& found) const {
    const AirUnit& unit = system_.units[index];
    const double way = unit.direction();
    const std::size_t x = unit.first;
    const std::size_t v = AirSystem::speed_of(unit);
    const std::span<const double> end = step_->result();
    const double stop = way > 0.0 ? unit.model->stroke : 0.0;
    const auto past = [&](double place) {
        return [this, place, way, x](double share) { return way * (step_->at(x, share) - place); };
    };
    look(past(stop), way * (y_[x] - stop), way * (end[x] - stop), What::stop, index, found);
    if (y_[v] * way > 0.0) {
        look([&](double share) { return -way * step_->at(v, share); }, -way * y_[v], -way * end[v],
             What::turn, index, found);
    } else if (end[v] * way < 0.0) {
        // It starts from rest: what counts is whether it starts at all.
        constexpr double soon = 1e-3;
        const double rise = way * step_->at(v, soon);
        const auto back = [&](double share) { return -way * step_->at(v, soon + share * (1.0 - soon)); };
        const double share = rise > 0.0 ? soon + (1.0 - soon) * crossing(back, -rise, -way * end[v]) : 0.0;
        found = share < found.share ? Found{share, What::turn, index} : found;
    }
    if (unit.model->cushion > 0.0 && unit.region * way <= 0.0) {
        const double edge = (unit.region == 0) == (way > 0.0) ? unit.model->stroke - unit.model->cushion
                                                              : unit.model->cushion;
        look(past(edge), way * (y_[x] - edge), way * (end[x] - edge), What::cushion, index, found);
    }
}

double AirRunner::held_force(const AirUnit& unit, double share) const {
    const std::size_t a = AirSystem::out_of(unit);
    const std::size_t b = AirSystem::back_of(unit);
    const auto air = [&](std::size_t place) {
        return share >= 1.0 ? ChamberAir{step_->result()[place], step_->result()[place + 1]}
                            : ChamberAir{step_->at(place, share), step_->at(place + 1, share)};
    };
    const double out = system_.out_point(unit, air(a), unit.travel).pressure;
    const double back = unit.model->back_is_air ? system_.back_point(unit, air(b), unit.travel).pressure
                                                : system_.plant().ambient_pressure;
    return system_.net_force(unit, unit.travel, out, back, unit.model->mechanism.at(unit.travel));
}

void AirRunner::look_at_hold(std::size_t index, Found& found) const {
    const AirUnit& unit = system_.units[index];
    const auto beyond = [&](double force) {
        const double pull = unit.hold == Hold::at_back  ? force
                            : unit.hold == Hold::at_out ? -force
                                                        : std::abs(force);
        return pull - holding_force(unit);
    };
    const double at_end = beyond(held_force(unit, 1.0));
    if (at_end > 0.0) {
        look([&](double share) { return beyond(held_force(unit, share)); }, beyond(held_force(unit, 0.0)),
             at_end, What::release, index, found);
    }
}

void AirRunner::look_at_switch(Found& found) const {
    if (!system_.limited() || system_.plant().cut_out <= 0.0) {
        return;
    }
    const std::size_t place = system_.receiver_place();
    const bool on = system_.compressor_on;
    const double limit = on ? system_.plant().cut_out : system_.plant().cut_in;
    const auto past = [&](double mass) {
        const double pressure = system_.receiver_pressure(mass);
        return on ? pressure - limit : limit - pressure;
    };
    look([&](double share) { return past(step_->at(place, share)); }, past(y_[place]),
         past(step_->result()[place]), on ? What::cut_out : What::cut_in, 0, found);
}

void AirRunner::look_at_pilot(std::size_t index, Found& found) const {
    const AirUnit& unit = system_.units[index];
    const std::size_t place = unit.has_reservoir() ? AirSystem::reservoir_of(unit) : system_.receiver_place();
    const auto enough = [&](double mass) {
        return system_.pilot_pressure(unit, mass) - unit.model->least_pressure;
    };
    if (unit.has_reservoir() || system_.limited()) {
        look([&](double share) { return enough(step_->at(place, share)); }, enough(y_[place]),
             enough(step_->result()[place]), What::pilot, index, found);
    }
}

AirRunner::Found AirRunner::first_event() const {
    Found found;
    for (std::size_t i = 0; i < system_.units.size(); ++i) {
        if (!system_.units[i].awake) {
            continue;
        }
        if (valves_[i].waiting) {
            look_at_pilot(i, found);
        }
        if (moves(system_.units[i].hold)) {
            look_at_motion(i, found);
        } else {
            look_at_hold(i, found);
        }
    }
    look_at_switch(found);
    return found;
}

void AirRunner::apply(const Found& found) {
    AirUnit& unit = system_.units[found.unit];
    switch (found.what) {
        case What::stop: {
            const double speed = unit.speed;
            const bool out = unit.hold == Hold::moving_out;
            unit.travel = out ? unit.model->stroke : 0.0;
            unit.speed = 0.0;
            unit.hold = out ? Hold::at_out : Hold::at_back;
            set_region(unit);
            log_->meets_stop(time_, found.unit, speed);
            break;
        }
        case What::turn:
            turn(found.unit);
            break;
        case What::cushion:
            unit.region += unit.direction();
            break;
        case What::release:
            unit.hold = system_.net_force(unit) > 0.0 ? Hold::moving_out : Hold::moving_back;
            unit.speed = 0.0;
            log_->starts(time_, found.unit);
            break;
        case What::pilot: {
            ValveState& valve = valves_[found.unit];
            const std::size_t stroke = *valve.waiting;
            valve.waiting.reset();
            shift(found.unit, stroke, valve.wanted);
            break;
        }
        case What::cut_in:
        case What::cut_out:
            system_.compressor_on = found.what == What::cut_in;
            if (system_.compressor_on) {
                log_->compressor_starts();
            }
            break;
    }
}

void AirRunner::turn(std::size_t index) {
    AirUnit& unit = system_.units[index];
    unit.speed = 0.0;
    unit.hold = unit.travel <= 0.0                  ? Hold::at_back
                : unit.travel >= unit.model->stroke ? Hold::at_out
                                                    : Hold::stuck;
    unit.travel = std::clamp(unit.travel, 0.0, unit.model->stroke);
    const double force = system_.net_force(unit);
    if (released(unit, force)) {
        unit.hold = force > 0.0 ? Hold::moving_out : Hold::moving_back;
    }
    log_->starts(time_, index);
}

}  // namespace gasp
