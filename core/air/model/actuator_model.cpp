// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/model_figures.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

using Q = Quantity;
namespace blank = taken_where_blank;

/// A conductance that stands in no way: what comes after it in series is all that counts.
constexpr Conductance open_wide{1.0, 0.0};

struct Tubing {
    Conductance path = open_wide;
    double volume = 0.0;
    double wave = 0.0;
};

/// A tube without length is none.
Tubing tubing(double length, double bore, double temperature) {
    if (length <= 0.0 || bore <= 0.0) {
        return {};
    }
    return {of_tube(length, bore), area_of_circle(bore) * length, wave_delay(length, temperature)};
}

void append(Conductance& before, const Conductance& next) {
    if (next != open_wide) {
        before = before == open_wide ? next : in_series(before, next);
    }
}

/// What of the paths all actuators have alike, and where each part of the work is noted.
class ActuatorMaker {
  public:
    ActuatorMaker(AirModel& model, const AirPlant& plant, const Actuator& actuator)
        : figures_(model, &actuator), air_(model.plant), plant_(plant), rig_(actuator) {}

    /// Adds the actuator to the model if it can be simulated.
    void make(AirModel& model) {
        for_each_actuator_part(
            [&](std::string_view key, auto, auto member) { figures_.check(rig_.*member, key); });
        const auto blanks = blanks_of_linkage(rig_);
        model.missing.insert(model.missing.end(), blanks.begin(), blanks.end());
        if (!figures_.whole() || !blanks.empty()) {
            return;
        }
        made_.id = rig_.id;
        made_.name = rig_.name;
        set_cylinder();
        set_paths();
        set_valve();
        set_load();
        if (figures_.whole()) {
            set_mechanism();
        }
        if (figures_.whole()) {
            model.actuators.push_back(std::move(made_));
        }
    }

  private:
    void set_cylinder() {
        const Cylinder& cylinder = rig_.cylinder;
        made_.back_is_air =
            cylinder.action == CylinderAction::double_acting && rig_.valve.kind != ValveKind::three_two;
        made_.bore = figures_.need(Q::small_length, cylinder.bore_mm, "cylinder.bore_mm", "bore");
        made_.stroke = figures_.need(Q::small_length, cylinder.stroke_mm, "cylinder.stroke_mm", "stroke");
        double rod = si(Q::small_length, cylinder.rod_mm.value_or(0.0));
        if (made_.back_is_air) {
            rod = figures_.need(Q::small_length, cylinder.rod_mm, "cylinder.rod_mm", "rod");
        }
        if (cylinder.bore_mm && rod >= made_.bore) {
            figures_.refuse({fmt::format("the rod of \"{}\" is as thick as its bore", rig_.name),
                             "cylinder.rod_mm", "Enter a rod thinner than the bore"});
        }
        made_.out_area = area_of_circle(made_.bore);
        made_.back_area = made_.out_area - area_of_circle(rod);
        made_.dead_volume = figures_.or_else(
            Q::small_volume, cylinder.dead_ml, blank::dead_share * made_.out_area * made_.stroke,
            fmt::format("{:.0f} % of the volume swept", blank::dead_share * 100), "cylinder.dead_ml",
            "dead volume");
        made_.heat_transfer = blank::heat_transfer;
        made_.cushion = std::min(si(Q::small_length, cylinder.cushion_mm.value_or(0.0)), made_.stroke / 2.0);
    }

    void set_paths() {
        const FlowControls& controls = rig_.flow_controls;
        const double temperature = air_.ambient_temperature;
        const double length = figures_.need(Q::length, rig_.tube.length_m, "tube.length_m", "tube length");
        const Tubing tube = tubing(
            length,
            length > 0.0 ? figures_.need(Q::small_length, rig_.tube.bore_mm, "tube.bore_mm", "tube bore")
                         : 0.0,
            temperature);
        made_.tube_volume = tube.volume;
        made_.wave = tube.wave;
        if (made_.out_area > 0.0 && !(made_.dead_volume + made_.tube_volume > 0.0)) {
            figures_.refuse({fmt::format("\"{}\" has neither a dead volume nor a tube", rig_.name),
                             "cylinder.dead_ml", "Enter the room that is left at the end, a mL or more"});
        }
        const double supply_c = figures_.need(Q::number, rig_.valve.supply_c_l_s_bar,
                                              "valve.supply_c_l_s_bar", "supply conductance of the valve");
        const double exhaust_c =
            figures_.or_else(Q::number, rig_.valve.exhaust_c_l_s_bar, supply_c, "as the supply",
                             "valve.exhaust_c_l_s_bar", "exhaust conductance of the valve");
        const Conductance valve_in =
            figures_.path(supply_c, rig_.valve.supply_b, "valve.supply_b", "supply ratio b of the valve");
        const Conductance valve_out =
            figures_.path(exhaust_c, rig_.valve.exhaust_b, "valve.exhaust_b", "exhaust ratio b of the valve");
        set_supply(feed_path(temperature), valve_in, tube.path);

        const Conductance meter_out = optional(controls.out_c_l_s_bar, controls.out_b, "flow_controls.out_b",
                                               "ratio b of metering out");
        Conductance out = open_wide;
        append(out, controls.place == ControlPlace::at_cylinder ? meter_out : tube.path);
        append(out, controls.place == ControlPlace::at_cylinder ? tube.path : meter_out);
        append(out, valve_out);
        append(out, optional(controls.silencer_c_l_s_bar, controls.silencer_b, "flow_controls.silencer_b",
                             "ratio b of the silencer"));
        if (controls.quick_exhaust_c_l_s_bar) {
            out = optional(controls.quick_exhaust_c_l_s_bar, controls.quick_exhaust_b,
                           "flow_controls.quick_exhaust_b", "ratio b of the quick exhaust");
        }
        made_.exhaust = out;
        Conductance cushioned = optional(rig_.cylinder.cushion_c_l_s_bar, rig_.cylinder.cushion_b,
                                         "cylinder.cushion_b", "ratio b of the cushion");
        made_.cushion = rig_.cylinder.cushion_c_l_s_bar ? made_.cushion : 0.0;
        append(cushioned, out);
        made_.cushioned_exhaust = cushioned;
    }

    /// Regulator and the tube behind it.
    Conductance feed_path(double temperature) {
        Conductance feed = open_wide;
        if (plant_.regulator_c_l_s_bar) {
            append(feed, {si(Q::conductance, *plant_.regulator_c_l_s_bar),
                          plant_.regulator_b.value_or(blank::critical_ratio)});
        } else {
            figures_.or_else(Q::number, std::nullopt, 0.0, "no hindrance", "air_plant.regulator_c_l_s_bar",
                             "regulator conductance");
        }
        const Feed& rig = rig_.feed;
        append(feed,
               tubing(rig.length_m.value_or(0.0), si(Q::small_length, rig.bore_mm.value_or(0.0)), temperature)
                   .path);
        return feed;
    }

    void set_supply(const Conductance& feed, const Conductance& valve, const Conductance& tube) {
        const FlowControls& controls = rig_.flow_controls;
        Conductance in = open_wide;
        if (rig_.feed.reservoir_l) {
            made_.reservoir = si(Q::volume, *rig_.feed.reservoir_l);
            made_.feed = feed;
            if (feed == open_wide) {
                figures_.need(Q::number, std::nullopt, "feed.length_m",
                              "tube or regulator before the reservoir");
            }
        } else {
            in = feed;
        }
        append(in, valve);
        const Conductance meter =
            optional(controls.in_c_l_s_bar, controls.in_b, "flow_controls.in_b", "ratio b of metering in");
        append(in, controls.place == ControlPlace::at_cylinder ? tube : meter);
        append(in, controls.place == ControlPlace::at_cylinder ? meter : tube);
        made_.supply = in;
    }

    Conductance optional(const Figure& c, const Figure& b, std::string_view key, std::string_view label) {
        return c ? figures_.path(*c, b, key, label) : open_wide;
    }

    void set_valve() {
        const Valve& valve = rig_.valve;
        made_.opening_delay = figures_.or_else(Q::time_ms, valve.opening_delay_ms, 0.0, "0 ms",
                                               "valve.opening_delay_ms", "opening delay");
        made_.two_coils = valve.kind == ValveKind::five_two_two_coils;
        if (made_.two_coils) {
            made_.closing_delay = made_.opening_delay;
        } else {
            made_.closing_delay = figures_.or_else(Q::time_ms, valve.closing_delay_ms, 0.0, "0 ms",
                                                   "valve.closing_delay_ms", "closing delay");
        }
        made_.ramp = si(Q::time_ms, valve.ramp_ms.value_or(0.0));
        if (valve.least_kpa_gauge && *valve.least_kpa_gauge > 0.0) {
            made_.least_pressure = air_.ambient_pressure + si(Q::gauge_pressure, *valve.least_kpa_gauge);
        }
    }

    void set_load() {
        const Load& load = rig_.load;
        const Cylinder& cylinder = rig_.cylinder;
        made_.mass = figures_.need(Q::mass, load.mass_kg, "load.mass_kg", "moving mass");
        made_.rod_mass = si(Q::mass, cylinder.rod_mass_kg.value_or(0.0));
        if (cylinder.action == CylinderAction::single_spring_return) {
            made_.spring_force =
                figures_.need(Q::force, cylinder.spring_n, "cylinder.spring_n", "spring force");
            made_.spring_rate = si(Q::stiffness, cylinder.spring_rate_n_mm.value_or(0.0));
        }
        made_.spring_force += load.counter_n.value_or(0.0);
        made_.spring_rate += si(Q::stiffness, load.counter_rate_n_mm.value_or(0.0));
        set_friction();
    }

    void set_friction() {
        const Cylinder& cylinder = rig_.cylinder;
        const double force = (air_.set_pressure - air_.ambient_pressure) * made_.out_area;
        if (cylinder.friction_n) {
            made_.moving_friction = *cylinder.friction_n;
        } else {
            made_.moving_friction =
                force * figures_.or_else(Q::percent, rig_.load.friction_percent, blank::friction_share,
                                         fmt::format("{:.0f} %", blank::friction_share * 100),
                                         "load.friction_percent", "friction");
        }
        made_.static_friction =
            std::max(cylinder.static_friction_n.value_or(made_.moving_friction), made_.moving_friction);
        made_.viscous = cylinder.viscous_n_s_m.value_or(0.0);
    }

    void set_mechanism() {
        Result<Mechanism> mechanism = Mechanism::make(rig_, made_.stroke);
        if (!mechanism) {
            figures_.refuse(mechanism.error());
            return;
        }
        made_.mechanism = std::move(*mechanism);
        constexpr double least_mass = 1e-3;  // kg; below it the rod's own mass is what moves
        if (made_.rod_mass < least_mass && made_.mass * least_path_squared() < least_mass) {
            const double rod =
                rig_.cylinder.rod_mm ? si(Q::small_length, *rig_.cylinder.rod_mm) : 0.4 * made_.bore;
            made_.rod_mass = std::max(least_mass, area_of_circle(rod) * made_.stroke * blank::steel_density);
            figures_.or_else(Q::mass, std::nullopt, 0.0,
                             fmt::format("{:.2f} kg, a steel rod of its size", made_.rod_mass),
                             "cylinder.rod_mass_kg", "mass of rod and piston");
        }
    }

    [[nodiscard]] double least_path_squared() const {
        double least = std::numeric_limits<double>::infinity();
        constexpr int travels = 20;
        for (int i = 0; i <= travels; ++i) {
            least = std::min(least, made_.mechanism.at(made_.stroke * i / travels).path_squared);
        }
        return least;
    }

    ModelFigures figures_;
    const PlantModel& air_;
    const AirPlant& plant_;
    const Actuator& rig_;
    ActuatorModel made_;
};

}  // namespace

void add_actuator(AirModel& model, const AirPlant& plant, const Actuator& actuator) {
    ActuatorMaker(model, plant, actuator).make(model);
}

}  // namespace gasp
