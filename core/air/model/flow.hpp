// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

// Air and its flow through components, in SI: pressures absolute, temperatures in K, mass flow in kg/s.

inline constexpr double reference_pressure = 100e3;      // Pa, ISO 8778
inline constexpr double reference_temperature = 293.15;  // K, ISO 8778
inline constexpr double reference_density = 1.185;       // kg/m3, ISO 8778
/// J/(kg K), so that the reference density and the gas law agree exactly.
inline constexpr double gas_constant = reference_pressure / (reference_density * reference_temperature);
inline constexpr double heat_ratio = 1.4;
inline constexpr double heat_cp = gas_constant * heat_ratio / (heat_ratio - 1.0);  // J/(kg K)
inline constexpr double heat_cv = gas_constant / (heat_ratio - 1.0);               // J/(kg K)
inline constexpr double standard_gravity = 9.80665;                                // m/s2, ISO 80000-3

/// What a component or a path lets through, ISO 6358: sonic conductance in m3/(s Pa) (1e-8 of it is
/// 1 dm3/(s bar)) and critical pressure ratio. Requires: c >= 0, 0 <= b < 1.
struct Conductance {
    double c = 0.0;
    double b = 0.3;
    bool operator==(const Conductance&) const = default;
};

/// From `up` to `down` (ISO 6358-1): choked up to a ratio of b, elliptic above it, and straight from a ratio
/// of 0.999 to nothing at 1. Negative where the pressure downstream is the higher one: the roles are
/// swapped, the air then has the temperature downstream. Requires: pressures and temperatures above 0.
[[nodiscard]] double mass_flow(const Conductance& path, double up_pressure, double up_temperature,
                               double down_pressure, double down_temperature);

/// The same without the way back: 0 where the pressure downstream is the higher one.
[[nodiscard]] double forward_flow(const Conductance& path, double up_pressure, double up_temperature,
                                  double down_pressure);

/// Two components one after the other, the air coming through `first` (ISO 6358-3). Nothing passes where one
/// of them lets nothing through.
[[nodiscard]] Conductance in_series(const Conductance& first, const Conductance& second);

/// Side by side: c adds, b is such that at a ratio of 0.9 the flow is that of both.
[[nodiscard]] Conductance in_parallel(const Conductance& one, const Conductance& other);

/// A tube by length and bore in m, empirical form (Eckersten; Beater, Pneumatic Drives, 2007; from memory):
/// C = 0.029 d^2 / sqrt(L / d^1.25 + 510), b = 474 C / d^2. Requires: bore above 0, length at least 0.
[[nodiscard]] Conductance of_tube(double length, double bore);

/// Time in s that a pressure wave takes along a tube: its length over sqrt(gamma R T).
[[nodiscard]] double wave_delay(double length, double temperature);

/// m3 of free air (ISO 8778) of a mass of air in kg.
[[nodiscard]] constexpr double free_air_volume(double mass) {
    return mass / reference_density;
}

/// The conductance to the air around of a leak by which a volume (m3, isothermal) falls from one absolute
/// pressure to another within a time (s). Requires: from > to > ambient, time above 0.
[[nodiscard]] Conductance of_leak(double volume, double temperature, double ambient, double from, double to,
                                  double time, double b);

}  // namespace gasp
