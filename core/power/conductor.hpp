// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"

#include <optional>
#include <span>

namespace gasp {

// Copper wire. Areas are of copper, in mm2; gauges are turned into areas by core/units/gauge.hpp.

/// The temperature at which wire is reckoned with: that of NEC chapter 9 table 8. A wire within its ampacity
/// is no hotter, so that a drop comes out too large rather than too small. At it the figure of nominal mm2 is
/// also no lower than the largest resistance IEC 60228 allows flexible wire of that size at 20 C.
inline constexpr double working_wire_c = 75.0;

/// Ohm of one metre. Resistivity of annealed copper 1/58 ohm mm2/m at 20 C and 0.00393 more for each kelvin
/// (IEC 60028); strands lie at a slant, which makes them 2 % longer than the wire (ASTM B8, from memory; the
/// rows of stranded wire of NEC chapter 9 table 8 have it). Requires: mm2 above 0.
[[nodiscard]] double copper_ohm_per_m(double mm2, double celsius = working_wire_c, bool stranded = true);

/// The most a wire may carry for long; none for wire thinner than 30 AWG. Between the gauges of the table it
/// follows the power of the area that joins them. Table: NFPA 79, 12.5.1, insulation for 60 C, air at 30 C
/// (24 to 4 AWG; thinner and thicker ones from memory), with 15, 20 and 30 A for 14, 12 and 10 AWG as NEC
/// 240.4(D) limits the fuse of these. Wires in a bundle or in hotter air bear less: the local code says by
/// how much.
[[nodiscard]] std::optional<double> ampacity_a(double mm2);

/// The wire sizes that are sold, rising: those of IEC 60228, which begins at 0.5 mm2, and three thinner ones
/// of control cable (common practice, no source); or even gauges from 24 AWG to 4/0.
[[nodiscard]] std::span<const double> standard_wires_mm2(UnitSystem system);

/// What a wire has to do.
struct WireTask {
    double carried_m = 0.0;    ///< length of copper in which it drops: there and back where both are alike
    double current_a = 0.0;    ///< that makes the drop
    double most_drop_v = 0.0;  ///< over that length
    double bears_a = 0.0;      ///< it must carry this much for long: its fuse, and what flows in it
};

/// The smallest standard wire that does it; none where even the largest does not.
[[nodiscard]] std::optional<double> smallest_wire_mm2(const WireTask& task, UnitSystem system);

}  // namespace gasp
