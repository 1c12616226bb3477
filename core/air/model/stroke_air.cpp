// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/stroke_air.hpp"

#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp {
namespace {

constexpr double gravity = 9.80665;           // m/s2, standard value of ISO 80000-3
constexpr double reference_pressure = 100e3;  // Pa, ISO 8778
constexpr double litres_per_cubic_metre = 1e3;

double circle(double diameter) {
    return std::numbers::pi / 4.0 * diameter * diameter;
}

bool driven_back(const Actuator& actuator) {
    return actuator.cylinder.action == CylinderAction::double_acting &&
           actuator.valve.kind != ValveKind::three_two;
}

/// Area of the piston on the rod's side, m2.
double rod_side(const Cylinder& cylinder) {
    return circle(si(Quantity::small_length, *cylinder.bore_mm)) -
           circle(si(Quantity::small_length, *cylinder.rod_mm));
}

}  // namespace

double ambient_kpa(const AirPlant& plant) {
    // ISO 2533 (troposphere), in its closed form.
    return 101.325 * std::pow(1.0 - 2.25577e-5 * plant.altitude_m.value_or(0.0), 5.25588);
}

std::vector<BlankField> blanks_of_stroke_air(const AirPlant& plant, const Actuator& actuator) {
    BlankFields of_plant(nullptr);
    of_plant.need(plant.regulator_kpa_gauge, "air_plant.regulator_kpa_gauge", "regulator setting");
    BlankFields blanks(&actuator);
    blanks.need(actuator.cylinder.bore_mm, "cylinder.bore_mm", "bore");
    if (driven_back(actuator)) {
        blanks.need(actuator.cylinder.rod_mm, "cylinder.rod_mm", "rod");
    }
    blanks.need(actuator.cylinder.stroke_mm, "cylinder.stroke_mm", "stroke");
    blanks.need(actuator.tube.length_m, "tube.length_m", "tube length");
    blanks.need(actuator.tube.bore_mm, "tube.bore_mm", "tube bore");
    std::vector<BlankField> all = of_plant.take();
    for (BlankField& blank : blanks.take()) {
        all.push_back(std::move(blank));
    }
    return all;
}

Result<StrokeAir> stroke_air(const AirPlant& plant, const Actuator& actuator) {
    if (const auto blanks = blanks_of_stroke_air(plant, actuator); !blanks.empty()) {
        return tl::unexpected(blank_error(blanks.front()));
    }
    const double gauge = si(Quantity::gauge_pressure, *plant.regulator_kpa_gauge);
    const double absolute = gauge + si(Quantity::gauge_pressure, ambient_kpa(plant));
    const Cylinder& cylinder = actuator.cylinder;
    const double stroke = si(Quantity::small_length, *cylinder.stroke_mm);
    const double tube = si(Quantity::length, *actuator.tube.length_m) *
                        circle(si(Quantity::small_length, *actuator.tube.bore_mm));
    const auto litres = [&](double area) {
        return (area * stroke * absolute + tube * gauge) / reference_pressure * litres_per_cubic_metre;
    };
    return StrokeAir{litres(circle(si(Quantity::small_length, *cylinder.bore_mm))),
                     driven_back(actuator) ? litres(rod_side(cylinder)) : 0.0};
}

std::vector<BlankField> blanks_of_lifting(const Actuator& actuator) {
    BlankFields blanks(&actuator);
    blanks.need(actuator.cylinder.bore_mm, "cylinder.bore_mm", "bore");
    if (actuator.cylinder.action == CylinderAction::single_spring_return) {
        blanks.need(actuator.cylinder.spring_n, "cylinder.spring_n", "spring force");
    }
    blanks.need(actuator.load.mass_kg, "load.mass_kg", "moving mass");
    blanks.need(actuator.load.angle_deg, "load.angle_deg", "angle of the way out");
    blanks.need(actuator.load.ratio, "load.ratio", "travel ratio");
    blanks.need(actuator.load.friction_percent, "load.friction_percent", "friction");
    if (driven_back(actuator) && actuator.load.angle_deg.value_or(0.0) < 0.0) {
        blanks.need(actuator.cylinder.rod_mm, "cylinder.rod_mm", "rod");
    }
    return blanks.take();
}

Result<double> least_lifting_kpa_gauge(const Actuator& actuator) {
    if (const auto blanks = blanks_of_lifting(actuator); !blanks.empty()) {
        return tl::unexpected(blank_error(blanks.front()));
    }
    const Load& load = actuator.load;
    const Cylinder& cylinder = actuator.cylinder;
    const bool spring = cylinder.action == CylinderAction::single_spring_return;
    const double weight =
        *load.mass_kg * gravity * *load.ratio * std::sin(si(Quantity::angle, *load.angle_deg));
    const double kept = 1.0 - si(Quantity::percent, *load.friction_percent);
    const double bore = circle(si(Quantity::small_length, *cylinder.bore_mm));
    const double out = (weight + (spring ? *cylinder.spring_n : 0.0)) / (bore * kept);
    const double back = weight < 0.0 && driven_back(actuator) ? -weight / (rod_side(cylinder) * kept) : 0.0;
    return std::max({out, back, 0.0}) / si(Quantity::gauge_pressure, 1.0);
}

}  // namespace gasp
