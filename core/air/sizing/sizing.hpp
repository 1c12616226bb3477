// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/fields.hpp"
#include "core/show/show.hpp"
#include "core/units/error.hpp"
#include "core/units/quantity.hpp"

#include <functional>
#include <string>
#include <vector>

namespace gasp {

/// What a figure is to do, from which its parts are chosen.
struct SizingTask {
    CylinderAction action = CylinderAction::double_acting;  ///< on a 5/2 valve; the others on a 3/2 one
    Figure lift_mm;                                         ///< travel of the figure along its way
    Figure mass_kg;
    Figure angle_deg;  ///< of the way out above the horizontal; blank 90
    Figure ratio;      ///< travel of the figure for one of the rod; blank 1
    Figure out_ms;     ///< from the coil switching to the end of the travel
    Figure back_ms;    ///< blank: as it comes
    Figure scares_per_h;
    Figure strokes_per_scare;  ///< out and back; blank 1
    Figure working_kpa_gauge;
    Figure friction_percent;  ///< of the piston's force; blank 10
    Figure tube_m;            ///< from valve to cylinder; blank 2
    Figure valve_delay_ms;    ///< either way; blank 25
    Figure duty_percent;      ///< largest share of time the compressor may run; blank 50
    Figure altitude_m;        ///< blank: sea level
    /// A linkage instead of ratio and angle: its kind is then not direct, and `stroke_mm` is the rod's.
    Linkage linkage;
    Figure stroke_mm;
    bool operator==(const SizingTask&) const = default;
};

template <>
const Fields<SizingTask>& fields<SizingTask>();

/// What an actuator of a show is to do, as far as the rig says: the figures that it leaves blank stay blank.
[[nodiscard]] SizingTask sizing_task(const Show& show, const Actuator& actuator);

/// Error: names the first field that is blank though needed, or outside its range, and the range.
[[nodiscard]] Result<void> check_task(const SizingTask& task, UnitSystem units);

/// One figure of the answer, in the document's unit of its quantity.
struct SizedFigure {
    std::string key;  ///< of the rig's field: "cylinder.bore_mm"
    std::string label;
    Quantity quantity = Quantity::number;
    double needed = 0.0;
    double chosen = 0.0;
    std::string size;     ///< what to ask a shop for; empty where nothing is standard
    double margin = 0.0;  ///< share by which the chosen one gives more than is needed: 0.25 is a quarter
    std::string reason;
};

/// The parts and how they move, simulated.
struct Sizing {
    std::vector<SizedFigure> figures;
    Actuator actuator;  ///< ready for a rig
    AirPlant plant;
    double out_ms = 0.0;  ///< coil switching to the end of the travel
    double back_ms = 0.0;
    double end_speed_m_s = 0.0;  ///< of the rod, at the end of the way out
    double end_energy_j = 0.0;
    double cycle_l = 0.0;                    ///< free air of a stroke out and back
    double lowest_receiver_kpa_gauge = 0.0;  ///< after scares_on_end of them from cut-in
    std::vector<std::string> notes;          ///< what to mind, a sentence each
};

namespace sizing_rules {
inline constexpr double most_load_share = 0.5;     ///< of the piston's force where it moves fast: component
                                                   ///< makers' guides, from memory
inline constexpr double valve_margin = 0.2;        ///< connectors and a silencer that clogs: an assumption
inline constexpr double tube_over_valve = 1.5;     ///< so that the tube is no bottleneck: common practice
inline constexpr double leak_share = 0.1;          ///< of what is drawn; "good" is below it: common practice
inline constexpr double starts_per_h = 10.0;       ///< motor makers, from memory
inline constexpr int scares_on_end = 3;            ///< groups that come bunched: an assumption
inline constexpr double switch_above_kpa = 150.0;  ///< cut-in over the regulator: an assumption
inline constexpr double switch_width_kpa = 200.0;  ///< cut-out over cut-in: common practice
inline constexpr double return_over_friction =
    1.5;  ///< of a weight or a spring that returns: common practice
}  // namespace sizing_rules

/// Chooses parts from the standard sizes of a system of units: the smallest bore that has the force and can
/// make the time through its own ports, then the conductance that just makes it, by bisection on the
/// simulation. Error: a field that is blank though needed or outside its range, naming both; a weight that
/// does not return by itself; a time or a load that no standard size meets, with what comes nearest;
/// `stopped` answered true, which it is asked now and then.
[[nodiscard]] Result<Sizing> size_rig(const SizingTask& task, UnitSystem sizes,
                                      const std::function<bool()>& stopped = {});

}  // namespace gasp
