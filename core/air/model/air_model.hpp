// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/blank_field.hpp"
#include "core/air/model/flow.hpp"
#include "core/air/model/linkage.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"

#include <limits>
#include <string>
#include <vector>

namespace gasp {

// The rig in SI, as the simulation takes it: pressures absolute, times in s.

/// What is taken where a figure is blank. An assumption of ours unless a source stands beside it.
namespace taken_where_blank {
inline constexpr double critical_ratio = 0.3;    // common practice for valves and fittings, no source
inline constexpr double heat_transfer = 50.0;    // W/(m2 K); the literature spans 20 to 200
inline constexpr double friction_share = 0.10;   // of the piston's force at working pressure
inline constexpr double dead_share = 0.05;       // of the volume swept, at each end
inline constexpr double temperature_c = 20.0;    // ISO 8778
inline constexpr double steel_density = 7850.0;  // kg/m3: a rod by its size where nothing else has a mass
}  // namespace taken_where_blank

/// A blank field that the simulation did without, and what it took instead.
struct Assumption {
    BlankField field;
    std::string taken;  ///< "0.3", "as the supply", "10 % of the piston's force"
    bool operator==(const Assumption&) const = default;
};

/// How the air of a chamber trades heat: with the wall by a coefficient, so fast that it keeps the
/// temperature around, not at all, or along p ~ density^exponent from the state of the air around.
enum class ChamberLaw : std::uint8_t { wall_heat, isothermal, adiabatic, polytropic };

/// One actuator. Chamber "out" is the one whose air drives the rod out, "back" the other one.
struct ActuatorModel {
    ActuatorId id;
    std::string name;

    double stroke = 0.0;       ///< m
    double bore = 0.0;         ///< m
    double out_area = 0.0;     ///< m2
    double back_area = 0.0;    ///< m2
    double dead_volume = 0.0;  ///< m3 at each end, of the cylinder itself
    double tube_volume = 0.0;  ///< m3, added to each chamber that has a tube
    bool back_is_air = false;  ///< the valve feeds the back chamber; else it breathes
    ChamberLaw law = ChamberLaw::wall_heat;
    double heat_transfer = 0.0;  ///< W/(m2 K)
    double exponent = 1.0;       ///< of the polytropic law

    Conductance supply;             ///< from the regulator's outlet, or the reservoir, to the chamber
    Conductance exhaust;            ///< from the chamber to the air around
    Conductance cushioned_exhaust;  ///< the same within the cushion
    double cushion = 0.0;           ///< m
    double reservoir = 0.0;         ///< m3; 0: none
    Conductance feed;               ///< from the regulator's inlet to the reservoir
    double opening_delay = 0.0;
    double closing_delay = 0.0;   ///< of a two-coil valve the opening delay of its other coil
    double ramp = 0.0;            ///< in which the path that opens goes from shut to fully open
    double wave = 0.0;            ///< along the tube to the cylinder, after either delay
    bool two_coils = false;       ///< it stays where it was sent; else a spring sends it back
    double least_pressure = 0.0;  ///< below it the valve does not shift; 0 for a valve without a pilot

    Mechanism mechanism;
    double mass = 0.0;             ///< kg of the figure
    double rod_mass = 0.0;         ///< kg that goes with the rod
    double spring_force = 0.0;     ///< N against the way out, rod in; negative: it helps out
    double spring_rate = 0.0;      ///< N/m
    double moving_friction = 0.0;  ///< N
    double static_friction = 0.0;  ///< N, at least the moving one
    double viscous = 0.0;          ///< N s/m
};

/// Receiver, compressor and regulator.
struct PlantModel {
    double ambient_pressure = 101325.0;
    double ambient_temperature = reference_temperature;
    double set_pressure = 0.0;                                  ///< of the regulator
    double receiver = std::numeric_limits<double>::infinity();  ///< m3
    double exponent = 1.0;  ///< polytropic, of the receiver; 1 is isothermal
    double cut_in = 0.0;    ///< Pa; 0 where there is no compressor
    double cut_out = 0.0;
    double delivery = 0.0;        ///< kg/s at an absolute receiver pressure of 0, by the straight line
    double delivery_slope = 0.0;  ///< kg/(s Pa)
    Conductance leak{0.0, taken_where_blank::critical_ratio};
};

/// Ambient pressure at the plant's altitude, kPa absolute (ISO 2533); at sea level where that is blank.
[[nodiscard]] double ambient_kpa(const AirPlant& plant);

struct AirModel {
    PlantModel plant;
    std::vector<ActuatorModel> actuators;  ///< in the order of the rig, those that can be simulated
    std::vector<BlankField> missing;       ///< blank fields that keep an actuator out, or the plant
    std::vector<Error> impossible;         ///< figures that cannot be, each naming its field and its range
    std::vector<Assumption> assumptions;

    /// Null when it is none of those that can be simulated.
    [[nodiscard]] const ActuatorModel* find(ActuatorId id) const;
};

/// The whole rig. Never fails: what cannot be simulated is left out and told of. Without a receiver there is
/// one without limit; a receiver without cut-in, cut-out or delivery is not refilled.
[[nodiscard]] AirModel air_model(const Show& show);

/// By how much the uncertain inputs differ from what the rig says; 1 is as it says. Bands, the fit and the
/// worst case of a night run the same model with other factors.
struct AirFactors {
    double friction = 1.0;     ///< moving, static and by speed
    double heat = 1.0;         ///< heat transfer at the cylinder's wall
    double conductance = 1.0;  ///< of supply, exhaust, cushion and feed
    double delay = 1.0;        ///< of the valve, both ways
    double load = 1.0;         ///< mass of the figure
    bool operator==(const AirFactors&) const = default;
};

[[nodiscard]] ActuatorModel varied(const ActuatorModel& model, const AirFactors& factors);
/// All actuators alike.
[[nodiscard]] AirModel varied(const AirModel& model, const AirFactors& factors);

}  // namespace gasp
