// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/air/run/air_curves.hpp"
#include "core/air/run/stroke_command.hpp"
#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <array>
#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The air that an actuator at rest keeps behind the regulator while the receiver falls.
struct KeptAir {
    ActuatorId actuator;
    double kpa_gauge = 0.0;  ///< in its reservoir, else in the chamber that its valve supplies
};

/// How a run begins, and how exactly it is worked out.
struct AirOptions {
    Figure receiver_kpa_gauge;  ///< at the start; blank: at cut-in, the least the switch lets it stand at
    std::optional<bool> compressor_on;  ///< at the start; blank: as the switch has it, off above cut-in
    std::vector<KeptAir> kept;          ///< at the start; as the receiver supplies it where nothing is said
    /// The compressor has filled the receiver, and what stands open to it, for so long that the air in the
    /// chambers is as warm as that keeps it.
    bool filling = false;
    bool air_on_now = false;               ///< all chambers hold the air around, as when air is let on
    std::vector<ActuatorId> out_at_start;  ///< valves that rest in the position that sends the figure out
    double tolerance = 1e-6;  ///< relative, of a step; 1e-6 keeps strikes within a few microseconds
    bool curves = true;       ///< without them only strokes and sums are kept
    std::function<bool()> stopped = {};  ///< asked now and then; once it answers true the run fails
};

/// Why a stroke ended.
enum class StrokeEnd : std::uint8_t {
    arrives,    ///< it reaches the end of its way
    stalls,     ///< slower than 1 mm/s for the last 0.2 s, before the end, the supply open
    turned,     ///< the next command reaches it on its way
    unfinished  ///< the run ends first, or it creeps on
};

/// One command that the valve of a simulated actuator obeys, and what comes of it up to the next one. Times
/// count from the command. Pressures are gauge.
struct Stroke {
    StrokeCommand command;
    bool shifted = false;  ///< false: the pressure never sufficed for the pilot, or the next command
                           ///< came within the delay
    StrokeEnd end = StrokeEnd::unfinished;
    bool bounces = false;  ///< goes back by more than 1 % of the stroke before its end
    std::array<std::optional<double>, 4> reached_s{};  ///< 10, 50, 95 and 100 % of the way from its own end
    double end_speed_m_s = 0.0;    ///< of the rod just before the stop; 0 where it is not reached
    double end_energy_j = 0.0;     ///< of all that moves
    double peak_force_n = 0.0;     ///< on the base: largest |m a + weight|, without the blow at the stop
    double free_air_l = 0.0;       ///< through the valve's supply port
    double left_receiver_l = 0.0;  ///< free air that left the receiver for this actuator meanwhile
    double receiver_kpa = 0.0;     ///< at the command
    double receiver_at_strike_kpa = 0.0;  ///< at 95 %, else at the end of the stroke
    double working_at_strike_kpa = 0.0;   ///< in the chamber that drives it, at the same moment
    double lowest_receiver_kpa = 0.0;     ///< from the command to the next
    double furthest = 0.0;                ///< share of the way it came, from its own end

    [[nodiscard]] std::optional<double> strike_s() const { return reached_s[2]; }
};

/// One actuator over the run.
struct ActuatorRun {
    ActuatorId actuator;
    MotionCurve motion;   ///< share of the travel, 0 back and 1 out
    Curve out_kpa;        ///< gauge pressure of the chamber that drives it out
    Curve back_kpa;       ///< of the other; empty where that one breathes
    Curve reservoir_kpa;  ///< empty where there is none
};

struct AirRun {
    std::vector<ActuatorRun> actuators;  ///< those of the model that any command names
    std::vector<Stroke> strokes;         ///< in the order of the commands
    Curve receiver_kpa;                  ///< gauge; level at the regulator's pressure where it has no limit
    double lowest_receiver_kpa = 0.0;
    Micros lowest_at{0};
    double compressor_on_s = 0.0;
    int compressor_starts = 0;  ///< one that starts with the run counts, unless AirOptions has it on already
    double receiver_end_kpa = 0.0;  ///< gauge, at the end
    bool compressor_on_at_end = false;
    std::vector<KeptAir> kept;     ///< at the end, of every actuator of the model that keeps any
    double free_air_l = 0.0;       ///< through all supply ports
    double left_receiver_l = 0.0;  ///< for the actuators, leak apart
    std::size_t steps = 0;         ///< of the integration: what the work is measured by

    [[nodiscard]] const ActuatorRun* find(ActuatorId id) const;
};

/// Plays commands (in order of time) against the model, all its actuators on one receiver, those without a
/// command at rest. Commands of actuators
/// that the model does not have are passed over. Error: the run needs more steps than any real rig, which
/// names the actuator; a figure of the model is not finite; it was stopped.
[[nodiscard]] Result<AirRun> run_air(const AirModel& model, std::span<const StrokeCommand> commands,
                                     Micros length, const AirOptions& options = {});

/// The time from the command to `share` (0..1) of the stroke's way, by the curve of its motion; none where
/// it is not reached before `until`, the next command of the same actuator.
[[nodiscard]] std::optional<double> lead_s(const ActuatorRun& run, const Stroke& stroke, double share,
                                           Micros until);

/// The first stroke out after the air is let on, with nothing in either chamber to brake it: apart from all
/// others, at the regulator's pressure with the receiver full to cut-out.
[[nodiscard]] Result<Stroke> first_stroke(const AirModel& model, ActuatorId actuator,
                                          double tolerance = 1e-6);

}  // namespace gasp
