// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/quantity.hpp"
#include "ui/sheet/circuit/air_symbols.hpp"

#include <cstddef>

// What the parts of an air circuit share. Nobody outside this folder includes this.

namespace gasp {

/// The line behind the regulator from which every actuator is fed.
inline constexpr double air_rail_y = 985.0;
/// Where the plant's line comes up to it.
inline constexpr double air_riser_x = 1840.0;

struct AirRail {
    double first = 0.0;  ///< middle of the first column
    double last = 0.0;   ///< of the last
    bool from_before = false;
    bool goes_on = false;
};

/// The line, with its ends to and from other sheets.
void draw_air_rail(Sketch& sketch, const AirRail& rail, std::size_t sheet);
/// Compressor to regulator, below the line, at the left of the sheet.
void draw_air_plant(Sketch& sketch, const AirPlant& plant, UnitSystem units);

}  // namespace gasp
