// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/blank_field.hpp"
#include "core/air/run/stroke_command.hpp"
#include "core/show/show.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// One stroke of a sequence, and the receiver after it.
struct BudgetStroke {
    StrokeCommand command;
    double free_air_l = 0.0;
    double receiver_kpa_gauge = 0.0;  ///< right after the stroke; 0 where there is no curve
};

/// The receiver's pressure between the strokes: straight lines between these points.
struct PressurePoint {
    Micros time{0};
    double receiver_kpa_gauge = 0.0;
    bool operator==(const PressurePoint&) const = default;
};

/// The receiver over one run of a sequence that begins at cut-in pressure, the least the switch lets it stand
/// at, with the compressor just starting.
struct AirBudget {
    std::vector<BudgetStroke> strokes;  ///< commands that move nothing, as a second push out, are left out
    std::vector<PressurePoint> curve;   ///< at least its first and last point when there is one
    double free_air_l = 0.0;            ///< of the strokes whose actuators are known
    double lowest_kpa_gauge = 0.0;
    Micros lowest_at{0};
    double compressor_on_s = 0.0;
    std::vector<BlankField> missing;  ///< blank fields it needs; where any is, there is no curve
};

/// `commands` in order of time; `length` is the end of the run. Without commands the curve shows the receiver
/// filling. Where the compressor cannot keep up, the pressure stops at that of the air around.
[[nodiscard]] AirBudget budget(const Show& show, std::span<const StrokeCommand> commands, Micros length);

}  // namespace gasp
