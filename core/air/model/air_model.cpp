// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/air_model.hpp"

#include "core/show/fields.hpp"
#include "core/show/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp {
namespace {

using Q = Quantity;
namespace blank = taken_where_blank;

double circle(double diameter) {
    return std::numbers::pi / 4.0 * diameter * diameter;
}

/// Reads figures into SI, of the plant or of one actuator, and notes which are blank.
class Figures {
  public:
    Figures(AirModel& model, const Actuator* actuator) : model_(model), actuator_(actuator) {}

    /// A figure without which nothing can be simulated.
    double need(Q quantity, const Figure& figure, std::string_view key, std::string_view label) {
        if (!figure) {
            model_.missing.push_back(blank_field(actuator_, key, label));
            whole_ = false;
        }
        return si(quantity, figure.value_or(0.0));
    }

    /// `otherwise` is in SI.
    double or_else(Q quantity, const Figure& figure, double otherwise, std::string taken,
                   std::string_view key, std::string_view label) {
        if (!figure) {
            model_.assumptions.push_back({blank_field(actuator_, key, label), std::move(taken)});
        }
        return figure ? si(quantity, *figure) : otherwise;
    }

    /// A conductance with its ratio; `c` is given.
    Conductance path(double c, const Figure& b, std::string_view key, std::string_view label) {
        return {si(Q::conductance, c), or_else(Q::number, b, blank::critical_ratio,
                                               fmt::format("{}", blank::critical_ratio), key, label)};
    }

    void refuse(Error error) {
        model_.impossible.push_back(std::move(error));
        whole_ = false;
    }

    /// Every figure of a part within the range of its field.
    template <class T>
    void check(const T& part, std::string_view prefix) {
        for (const FigureField<T>& each : fields<T>().figures) {
            if (!figure_allowed(each, part)) {
                const auto print = [&](double value) {
                    return print_quantity(each.quantity, value, UnitSystem::metric);
                };
                refuse({fmt::format("{} is {}, outside {} to {}", name(each.label),
                                    print(*(part.*each.member)), print(each.least), print(each.most)),
                        fmt::format("{}.{}", prefix, each.key), "Correct it, or leave it out"});
            }
        }
    }

    [[nodiscard]] bool whole() const { return whole_; }

  private:
    [[nodiscard]] std::string name(std::string_view label) const {
        return blank_field(actuator_, {}, label).label;
    }

    AirModel& model_;
    const Actuator* actuator_;
    bool whole_ = true;
};

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
    return {of_tube(length, bore), circle(bore) * length, wave_delay(length, temperature)};
}

void append(Conductance& before, const Conductance& next) {
    if (next != open_wide) {
        before = before == open_wide ? next : in_series(before, next);
    }
}

void set_compressor(PlantModel& plant, const AirPlant& rig, Figures& figures) {
    const bool whole = rig.cut_in_kpa_gauge && rig.cut_out_kpa_gauge && rig.delivery_l_min;
    if (!whole) {
        figures.or_else(Q::number, std::nullopt, 0.0, "none: nothing refills the receiver",
                        !rig.delivery_l_min     ? "air_plant.delivery_l_min"
                        : !rig.cut_in_kpa_gauge ? "air_plant.cut_in_kpa_gauge"
                                                : "air_plant.cut_out_kpa_gauge",
                        "compressor");
        return;
    }
    plant.cut_in = plant.ambient_pressure + si(Q::gauge_pressure, *rig.cut_in_kpa_gauge);
    plant.cut_out = plant.ambient_pressure + si(Q::gauge_pressure, *rig.cut_out_kpa_gauge);
    if (!(plant.cut_in < plant.cut_out)) {
        figures.refuse({"the compressor cuts out at or below its cut-in", "air_plant.cut_out_kpa_gauge",
                        "Set cut-out above cut-in"});
    }
    // ISO 1217: the delivery is the volume taken in, at the air around.
    const double density = plant.ambient_pressure / (gas_constant * plant.ambient_temperature);
    plant.delivery = si(Q::free_air_flow, *rig.delivery_l_min) * density;
    if (rig.delivery_at_kpa_gauge && rig.second_delivery_l_min && rig.second_delivery_at_kpa_gauge) {
        const double first = si(Q::gauge_pressure, *rig.delivery_at_kpa_gauge) + plant.ambient_pressure;
        const double second =
            si(Q::gauge_pressure, *rig.second_delivery_at_kpa_gauge) + plant.ambient_pressure;
        if (std::abs(second - first) < 1.0) {
            figures.refuse({"the two deliveries are stated at one pressure",
                            "air_plant.second_delivery_at_kpa_gauge", "State them at two pressures"});
            return;
        }
        const double other = si(Q::free_air_flow, *rig.second_delivery_l_min) * density;
        plant.delivery_slope = (other - plant.delivery) / (second - first);
        plant.delivery -= plant.delivery_slope * first;
    }
}

void set_leak(PlantModel& plant, const AirPlant& rig, Figures& figures) {
    if (rig.leak_c_l_s_bar) {
        plant.leak.c = si(Q::conductance, *rig.leak_c_l_s_bar);
    } else if (rig.leak_from_kpa_gauge && rig.leak_to_kpa_gauge && rig.leak_s && rig.receiver_l) {
        const double from = *rig.leak_from_kpa_gauge;
        const double to = *rig.leak_to_kpa_gauge;
        if (!(from > to)) {
            figures.refuse({"the timed fall of pressure ends above its start", "air_plant.leak_to_kpa_gauge",
                            "Enter the lower pressure there"});
            return;
        }
        plant.leak = of_leak(plant.receiver, plant.ambient_temperature, plant.ambient_pressure,
                             plant.ambient_pressure + si(Q::gauge_pressure, from),
                             plant.ambient_pressure + si(Q::gauge_pressure, std::max(to, 0.1)), *rig.leak_s,
                             blank::critical_ratio);
    }
}

bool set_plant(AirModel& model, const AirPlant& rig) {
    Figures figures(model, nullptr);
    figures.check(rig, "air_plant");
    if (!figures.whole()) {
        return false;
    }
    PlantModel& plant = model.plant;
    plant.ambient_pressure = si(Q::gauge_pressure, ambient_kpa(rig));
    figures.or_else(Q::length, rig.altitude_m, 0.0, "sea level", "air_plant.altitude_m", "altitude");
    plant.ambient_temperature = figures.or_else(
        Q::temperature, rig.temperature_c, si(Q::temperature, blank::temperature_c),
        fmt::format("{} \u00b0C", blank::temperature_c), "air_plant.temperature_c", "air temperature");
    plant.set_pressure =
        plant.ambient_pressure + figures.need(Q::gauge_pressure, rig.regulator_kpa_gauge,
                                              "air_plant.regulator_kpa_gauge", "regulator setting");
    plant.receiver = figures.or_else(Q::volume, rig.receiver_l, std::numeric_limits<double>::infinity(),
                                     "without limit", "air_plant.receiver_l", "receiver");
    if (rig.receiver_l) {
        set_compressor(plant, rig, figures);
        set_leak(plant, rig, figures);
    }
    return figures.whole();
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
        made_.out_area = circle(made_.bore);
        made_.back_area = made_.out_area - circle(rod);
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
            made_.rod_mass = std::max(least_mass, circle(rod) * made_.stroke * blank::steel_density);
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

    Figures figures_;
    const PlantModel& air_;
    const AirPlant& plant_;
    const Actuator& rig_;
    ActuatorModel made_;
};

}  // namespace

double ambient_kpa(const AirPlant& plant) {
    // ISO 2533 (troposphere), in its closed form.
    return 101.325 * std::pow(1.0 - 2.25577e-5 * plant.altitude_m.value_or(0.0), 5.25588);
}

const ActuatorModel* AirModel::find(ActuatorId id) const {
    const auto at = std::ranges::find(actuators, id, &ActuatorModel::id);
    return at != actuators.end() ? &*at : nullptr;
}

AirModel air_model(const Show& show) {
    AirModel model;
    if (!set_plant(model, show.rig.air_plant)) {
        return model;
    }
    for (const Actuator& actuator : show.rig.actuators) {
        ActuatorMaker(model, show.rig.air_plant, actuator).make(model);
    }
    return model;
}

ActuatorModel varied(const ActuatorModel& model, const AirFactors& factors) {
    ActuatorModel other = model;
    other.moving_friction *= factors.friction;
    other.static_friction *= factors.friction;
    other.viscous *= factors.friction;
    other.heat_transfer *= factors.heat;
    for (Conductance* path : {&other.supply, &other.exhaust, &other.cushioned_exhaust, &other.feed}) {
        path->c *= factors.conductance;
    }
    other.opening_delay *= factors.delay;
    other.closing_delay *= factors.delay;
    other.mass *= factors.load;
    return other;
}

AirModel varied(const AirModel& model, const AirFactors& factors) {
    AirModel other = model;
    for (ActuatorModel& actuator : other.actuators) {
        actuator = varied(actuator, factors);
    }
    return other;
}

}  // namespace gasp
