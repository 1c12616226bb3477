// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// Free air (ISO 8778) of one stroke each way, litres, by the handbook: swept volume times the ratio of
/// absolute working pressure to 100 kPa, and tube volume times the ratio of gauge pressure to 100 kPa, since
/// a vented tube still holds the air around it.
struct StrokeAir {
    double out_l = 0.0;
    double back_l = 0.0;  ///< 0 unless a 5/2 valve drives a double-acting cylinder back
};

/// Ambient pressure at the plant's altitude, kPa absolute (ISO 2533); at sea level where that is blank.
[[nodiscard]] double ambient_kpa(const AirPlant& plant);

/// The least working pressure that moves the load both ways, kPa gauge: its weight along the stroke and the
/// spring over the area the air presses on, with the share of the force that friction takes added. Error:
/// names the first field that is blank.
[[nodiscard]] Result<double> least_lifting_kpa_gauge(const Actuator& actuator);

/// Error: names the first field that is blank.
[[nodiscard]] Result<StrokeAir> stroke_air(const AirPlant& plant, const Actuator& actuator);

/// A field of the rig that a computation needs and does not have.
struct BlankField {
    std::string key;    ///< as in the file: "air_plant.receiver_l", "cylinder.bore_mm"
    std::string label;  ///< as people say it: "receiver of the air plant", "bore of \"Keeper\""
    std::optional<ActuatorId> actuator;
    bool operator==(const BlankField&) const = default;
};

/// The blank fields that stroke_air needs.
[[nodiscard]] std::vector<BlankField> blanks_of_stroke_air(const AirPlant& plant, const Actuator& actuator);
/// The blank fields that least_lifting_kpa_gauge needs.
[[nodiscard]] std::vector<BlankField> blanks_of_lifting(const Actuator& actuator);

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
