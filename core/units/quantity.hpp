// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <span>
#include <string>
#include <string_view>

namespace gasp {

/// What a number of the rig measures. Each has one unit in which documents keep it (and which their keys
/// name), so that a save and a load are exact; `si` turns it into SI for computation.
enum class Quantity {
    small_length,    ///< mm: bores, strokes, tube bores
    length,          ///< m: tube runs, distances
    gauge_pressure,  ///< kPa above the air around
    volume,          ///< L
    free_air_flow,   ///< L/min of free air (ISO 8778: 100 kPa, 20 C, 65 % RH)
    free_air,        ///< L of free air
    mass,            ///< kg
    force,           ///< N
    angle,           ///< degrees
    temperature,     ///< degrees Celsius
    time_ms,         ///< ms: valve delays, dwells
    time_s,          ///< s: lockouts, warm-ups
    frequency,       ///< Hz
    current,         ///< A
    voltage,         ///< V
    power,           ///< W
    sound_level,     ///< dB
    percent,         ///< %
    small_volume,    ///< mL: dead volumes
    conductance,     ///< L/(s bar) of free air: sonic conductance C of ISO 6358
    stiffness,       ///< N/mm: springs
    damping,         ///< N s/m
    speed,           ///< m/s
    energy,          ///< J
    wire_area,       ///< mm2 of copper; written and shown as a gauge, too
    charge,          ///< Ah: batteries
    number,          ///< without a unit: ratios, counts
};

/// Which units are shown, and which one a bare number is taken in.
enum class UnitSystem {
    metric,  ///< bar, mm, m, L, kg, L/min
    us,      ///< psi, in, ft, gal (US), lb, scfm, AWG
};

/// A unit people write for a quantity.
struct Unit {
    std::string_view name;  ///< as printed: "psi"
    double scale;           ///< document units in one of it
    double offset;          ///< document value = written x scale + offset (temperatures only)
};

/// The units understood for a quantity, the document's own first.
[[nodiscard]] std::span<const Unit> units_of(Quantity quantity);

/// The unit in which a quantity is shown in a system; "scfm" is a cubic foot of free air a minute. Wire has
/// none in US units: its text says itself whether it is a gauge or mm2.
[[nodiscard]] const Unit& shown_unit(Quantity quantity, UnitSystem system);

/// Reads "60 psi", "1 1/2 in", "1-1/16\"", "5' 3\"", "4,1 bar", "0.75"; a bare number is in the system's
/// shown unit. A comma is a decimal sign unless it may part thousands. The result is in the document's unit,
/// rounded to 9 significant digits, so that 1.5 in is 38.1 mm and not 38.099999. Error: no number, one that
/// can be read in two ways, a unit that is not one of this quantity's (they are listed), not finite.
[[nodiscard]] Result<double> parse_quantity(Quantity quantity, std::string_view text, UnitSystem system);

/// "4.137 bar", "1.0625 in": what was typed with up to 6 significant digits in the shown unit comes back as
/// it was typed; anything else is rounded to 4. No exponent from 1e-6 up to below 1e7.
[[nodiscard]] std::string print_quantity(Quantity quantity, double document_value, UnitSystem system);

/// The same without its unit, for a field that shows the unit beside it; reads back to within the rounding.
[[nodiscard]] std::string print_number(Quantity quantity, double document_value, UnitSystem system);

/// Document unit to SI: mm to m, kPa to Pa (still gauge), L and mL to m3, L/(s bar) to m3/(s Pa), N/mm to
/// N/m, L/min to m3/s, degrees to rad, C to K, ms to s, % to a share of 1; the others are SI already.
[[nodiscard]] double si(Quantity quantity, double document_value);

}  // namespace gasp
