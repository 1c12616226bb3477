// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/ids.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// A figure of the rig, in the unit its name ends on; empty while the builder has not given it. A check that
/// needs an empty one says "not checked", it never guesses.
using Figure = std::optional<double>;

// Wherever a struct has a member `extra`: the members of its object in the file that this version does not
// know, as JSON text ("\"key\": value, ..."), written back untouched.

/// Compressor, receiver, pressure switch and regulator, and the air around them.
struct AirPlant {
    Figure receiver_l;
    Figure cut_in_kpa_gauge;     ///< the compressor starts
    Figure cut_out_kpa_gauge;    ///< the compressor stops
    Figure delivery_l_min;       ///< free air delivered
    Figure duty_percent;         ///< largest share of time the compressor may run
    Figure regulator_kpa_gauge;  ///< set pressure for the props
    Figure altitude_m;
    Figure temperature_c;
    std::string extra;
    bool operator==(const AirPlant&) const = default;
};

enum class CylinderAction : std::uint8_t { single_gravity_return, single_spring_return, double_acting };

struct Cylinder {
    CylinderAction action = CylinderAction::double_acting;
    Figure bore_mm;
    Figure rod_mm;
    Figure stroke_mm;
    Figure spring_n;  ///< force of the return spring at rest
    Figure rating_kpa_gauge;
    std::string extra;
    bool operator==(const Cylinder&) const = default;
};

enum class ValveKind : std::uint8_t { three_two, five_two_one_coil, five_two_two_coils };

struct Valve {
    ValveKind kind = ValveKind::five_two_one_coil;
    Figure opening_delay_ms;
    Figure closing_delay_ms;
    Figure shortest_on_ms;   ///< shortest dwell that still shifts it fully
    Figure shortest_off_ms;  ///< shortest rest before it may be energised again
    Figure least_kpa_gauge;  ///< least pressure at which a pilot valve shifts
    std::string extra;
    bool operator==(const Valve&) const = default;
};

/// The tube between valve and cylinder; a double-acting cylinder has two alike.
struct Tube {
    Figure length_m;
    Figure bore_mm;
    std::string extra;
    bool operator==(const Tube&) const = default;
};

struct Load {
    Figure mass_kg;
    Figure angle_deg;         ///< of the rod's way out above the horizontal; 90 lifts straight up
    Figure ratio;             ///< travel of the figure for one of the rod
    Figure friction_percent;  ///< of the force of the piston at working pressure
    std::string extra;
    bool operator==(const Load&) const = default;
};

/// Stroke times as stated or timed on the real thing, from the coil switching to the end of the travel.
struct Motion {
    Figure out_ms;
    Figure back_ms;
    std::string extra;
    bool operator==(const Motion&) const = default;
};

/// A cylinder with its valve, tube and load: what moves a figure.
struct Actuator {
    ActuatorId id;
    std::string name;
    Cylinder cylinder;
    Valve valve;
    Tube tube;
    Load load;
    Motion motion;
    std::string extra;
    bool operator==(const Actuator&) const = default;
};

enum class ChannelKind : std::uint8_t { valve, lamp, motor, jaw, other };
enum class Contact : std::uint8_t { normally_open, normally_closed };
/// What an output does while its board powers up, before the player holds it.
enum class StartLevel : std::uint8_t { unknown, rest, driven };
/// Which way a valve channel sends its figure; only a valve with two coils has one that sends it back.
enum class Coil : std::uint8_t { out, back };

/// One switched output of a board with what hangs on it.
struct Channel {
    ChannelId id;
    std::string name;
    ChannelKind kind = ChannelKind::lamp;
    Contact contact = Contact::normally_open;  ///< what the load sees at rest: nothing, or power
    std::optional<BoardId> board;
    std::optional<std::uint32_t> output;  ///< counted from 1, as printed on the board
    StartLevel start_level = StartLevel::unknown;
    Figure load_current_a;
    Figure shortest_on_ms;               ///< of its relay or lamp
    Figure shortest_off_ms;              ///< of its relay or lamp
    std::optional<ActuatorId> actuator;  ///< whose valve it switches
    Coil coil = Coil::out;
    std::vector<ChannelId>
        excludes;  ///< never on together with these; the two coils of a valve exclude anyway
    std::string extra;
    bool operator==(const Channel&) const = default;
};

/// A microcontroller that plays an event table.
struct Board {
    BoardId id;
    std::string name;
    Figure outputs;  ///< how many it has
    Figure tick_ms;  ///< the step of its clock; 1 ms where empty
    std::string extra;
    bool operator==(const Board&) const = default;
};

enum class SensorKind : std::uint8_t { button, mat, beam, motion, other };

/// What starts a triggered sequence, and how long it is then ignored.
struct Sensor {
    SensorKind kind = SensorKind::button;
    Figure lockout_s;  ///< after the start of a run: how long further triggers are ignored
    Figure warm_up_s;
    std::string extra;
    bool operator==(const Sensor&) const = default;
};

struct Speaker {
    Figure power_w;
    Figure sensitivity_db;  ///< at 1 W and 1 m
    Figure distance_m;      ///< to the visitor's ear
    Figure player_lag_ms;   ///< from the start of the run to the first sound
    std::string extra;
    bool operator==(const Speaker&) const = default;
};

/// All that is built. The order of the lists is the order in which the builder sees them.
struct Rig {
    AirPlant air_plant;
    std::vector<Actuator> actuators;
    std::vector<Channel> channels;
    std::vector<Board> boards;
    Sensor sensor;
    Speaker speaker;
    std::string extra;
    bool operator==(const Rig&) const = default;
};

}  // namespace gasp
