// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <span>
#include <string>
#include <vector>

namespace gasp {

/// Free air (ISO 8778) of one stroke each way, by the handbook: swept volume and tube volume times the ratio of
/// absolute working pressure to 100 kPa. Litres.
struct StrokeAir {
    double out_l = 0.0;
    double back_l = 0.0;  ///< 0 where weight or a spring returns it
};

/// The least working pressure that moves the load, kPa gauge: its weight along the stroke, the spring and the
/// friction over the piston's area.
[[nodiscard]] Result<double> least_lifting_kpa_gauge(const Actuator& actuator);

/// Error: names the field of the rig that is blank.
[[nodiscard]] Result<StrokeAir> stroke_air(const AirPlant& plant, const Actuator& actuator);

/// A moment at which an actuator is sent one way.
struct StrokeCommand {
    Micros time{0};
    ActuatorId actuator;
    Coil way = Coil::out;
    bool operator==(const StrokeCommand&) const = default;
};

/// One stroke of a sequence, and the receiver after it.
struct BudgetStroke {
    StrokeCommand command;
    double free_air_l = 0.0;
    double receiver_kpa_gauge = 0.0;  ///< right after the stroke
};

/// The receiver's pressure between the strokes: straight lines between these points.
struct PressurePoint {
    Micros time{0};
    double receiver_kpa_gauge = 0.0;
};

/// The receiver over one run of a sequence that begins at cut-in pressure, the least the switch lets it stand at,
/// with the compressor running between cut-in and cut-out.
struct AirBudget {
    std::vector<BudgetStroke> strokes;
    std::vector<PressurePoint> curve;  ///< at least its first and last point when there is one
    double free_air_l = 0.0;
    double lowest_kpa_gauge = 0.0;
    Micros lowest_at{0};
    double compressor_on_s = 0.0;
    std::vector<std::string> missing;  ///< fields of the rig that are blank, as "receiver"; then there is no curve
    std::vector<std::string> missing_keys;  ///< the same as key paths: "air_plant.receiver_l"
};

/// `commands` in order of time; `length` is the end of the run.
[[nodiscard]] AirBudget budget(const Show& show, std::span<const StrokeCommand> commands, Micros length);

}  // namespace gasp
