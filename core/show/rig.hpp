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
    Figure cut_in_kpa_gauge;       ///< the compressor starts
    Figure cut_out_kpa_gauge;      ///< the compressor stops
    Figure delivery_l_min;         ///< free air delivered
    Figure delivery_at_kpa_gauge;  ///< receiver pressure it is stated at
    Figure second_delivery_l_min;  ///< the same at another pressure: straight in between and beyond
    Figure second_delivery_at_kpa_gauge;
    Figure duty_percent;         ///< largest share of time the compressor may run
    Figure starts_per_h;         ///< most starts its maker allows
    Figure regulator_kpa_gauge;  ///< set pressure for the props
    Figure regulator_c_l_s_bar;  ///< sonic conductance (ISO 6358) of the regulator
    Figure regulator_b;          ///< critical pressure ratio of the regulator
    Figure leak_c_l_s_bar;       ///< of all leaks at the receiver together
    Figure leak_from_kpa_gauge;  ///< a leak as measured, compressor off: the receiver falls from here
    Figure leak_to_kpa_gauge;    ///< to here
    Figure leak_s;               ///< within this time
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
    Figure spring_n;          ///< force of the return spring at rest
    Figure spring_rate_n_mm;  ///< what it gains for each mm of travel
    Figure rod_mass_kg;       ///< piston and rod, where Load::mass_kg does not hold them
    Figure dead_ml;           ///< at each end, piston against it, without the tube
    Figure friction_n;        ///< while moving; else by Load::friction_percent
    Figure static_friction_n;
    Figure viscous_n_s_m;
    Figure cushion_mm;  ///< length of the cushion at each end
    Figure cushion_c_l_s_bar;
    Figure cushion_b;
    Figure rated_speed_m_s;  ///< most its maker allows at the end of the stroke
    Figure rated_energy_j;   ///< likewise
    Figure rating_kpa_gauge;
    std::string extra;
    bool operator==(const Cylinder&) const = default;
};

enum class ValveKind : std::uint8_t { three_two, five_two_one_coil, five_two_two_coils };

struct Valve {
    ValveKind kind = ValveKind::five_two_one_coil;
    Figure opening_delay_ms;
    Figure closing_delay_ms;
    Figure shortest_on_ms;     ///< shortest dwell that still shifts it fully
    Figure shortest_off_ms;    ///< shortest rest before it may be energised again
    Figure least_kpa_gauge;    ///< least pressure at which a pilot valve shifts
    Figure ramp_ms;            ///< time in which it opens; at once where blank
    Figure supply_c_l_s_bar;   ///< sonic conductance (ISO 6358) from the supply to the cylinder's port
    Figure supply_b;           ///< critical pressure ratio of the same way
    Figure exhaust_c_l_s_bar;  ///< from the cylinder's port to the exhaust
    Figure exhaust_b;
    std::string extra;
    bool operator==(const Valve&) const = default;
};

enum class ControlPlace : std::uint8_t { at_valve, at_cylinder };

/// What stands in the way of the air between valve and cylinder, alike for both ends: one-way flow controls,
/// a quick exhaust at the cylinder's port, the silencer of the valve. Blank conductance: there is none.
struct FlowControls {
    ControlPlace place = ControlPlace::at_valve;  ///< of the flow controls
    Figure in_c_l_s_bar;                          ///< metering in
    Figure in_b;
    Figure out_c_l_s_bar;  ///< metering out
    Figure out_b;
    Figure quick_exhaust_c_l_s_bar;
    Figure quick_exhaust_b;
    Figure silencer_c_l_s_bar;
    Figure silencer_b;
    std::string extra;
    bool operator==(const FlowControls&) const = default;
};

/// From the regulator to the valve: the tube, and a reservoir beside the prop at its end.
struct Feed {
    Figure length_m;
    Figure bore_mm;
    Figure reservoir_l;  ///< blank: none
    std::string extra;
    bool operator==(const Feed&) const = default;
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
    Figure counter_n;  ///< pull back of a spring or counterweight with the rod in; negative: it helps out
    Figure counter_rate_n_mm;  ///< what that gains for each mm of travel
    std::string extra;
    bool operator==(const Load&) const = default;
};

enum class LinkageKind : std::uint8_t { direct, lever, swing_arms, table };
enum class ArmTurn : std::uint8_t { rises, falls };

/// A point of a measured linkage: how the arm stands, above the horizontal, at a travel of the rod.
struct LinkagePoint {
    double travel_mm = 0.0;
    double arm_deg = 0.0;
    bool operator==(const LinkagePoint&) const = default;
};

/// What stands between rod and figure. Direct: the figure goes with the rod, by Load's angle and ratio.
/// Lever: the cylinder hangs between a fixed foot and a pin on an arm that turns about a pivot, the figure at
/// the arm's end. Swing arms: such an arm carries one end of a coupler, a second arm the other end; the
/// figure is on the coupler. Table: the arm's slope at measured travels of the rod, the figure at the arm's
/// end.
struct Linkage {
    LinkageKind kind = LinkageKind::direct;
    ArmTurn turn = ArmTurn::rises;  ///< the arm's slope grows, or shrinks, as the rod goes out
    Figure foot_mm;                 ///< from the arm's pivot to the cylinder's foot
    Figure pin_mm;                  ///< from the arm's pivot to the rod's pin on the arm
    Figure closed_mm;               ///< from the cylinder's foot to the rod's pin, rod in
    Figure arm_mm;                  ///< from the pivot to the figure's centre of mass, or to the coupler
    Figure arm_deg;                 ///< slope of the arm above the horizontal, rod in
    Figure second_arm_mm;
    Figure coupler_mm;
    Figure ground_mm;   ///< from the first arm's pivot to the second's
    Figure ground_deg;  ///< slope of that line above the horizontal
    Figure
        mass_percent;  ///< where on the coupler the centre of mass is: 0 at the first arm, 100 at the second
    std::vector<LinkagePoint> points;  ///< of the table, by travel
    std::string extra;
    bool operator==(const Linkage&) const = default;
};

/// What holds the actuator down: a frame on the floor.
struct Base {
    Figure depth_mm;   ///< of its footprint, along the strike
    Figure height_mm;  ///< of the strike's line above the floor
    Figure mass_kg;    ///< of the frame with its ballast, without the moving parts
    std::string extra;
    bool operator==(const Base&) const = default;
};

/// Stroke times as stated or timed on the real thing, from the coil switching to the end of the travel.
struct Motion {
    Figure out_ms;
    Figure back_ms;
    std::string extra;
    bool operator==(const Motion&) const = default;
};

/// What strokes timed on the real thing say of the uncertain inputs: by what factor each differs from what
/// the rig or a default says, and how far off it may still be. Blank factor: as said, not measured.
struct Fit {
    Figure friction_factor;
    Figure friction_spread_percent;
    Figure conductance_factor;
    Figure conductance_spread_percent;
    Figure delay_factor;
    Figure delay_spread_percent;
    Figure heat_spread_percent;
    Figure load_spread_percent;
    std::vector<double> out_ms;   ///< the timed strokes, from the coil switching to the end of the travel
    std::vector<double> back_ms;  ///< the same of strokes back
    std::string extra;
    bool operator==(const Fit&) const = default;
};

/// A cylinder with its valve, air path and load: what moves a figure.
struct Actuator {
    ActuatorId id;
    std::string name;
    Cylinder cylinder;
    Valve valve;
    FlowControls flow_controls;
    Feed feed;
    Tube tube;
    Load load;
    Linkage linkage;
    Base base;
    Motion motion;
    Fit fit;
    std::string extra;
    bool operator==(const Actuator&) const = default;
};

enum class ChannelKind : std::uint8_t { valve, lamp, motor, jaw, other };
enum class Contact : std::uint8_t { normally_open, normally_closed };
/// What an output does while its board powers up, before the player holds it.
enum class StartLevel : std::uint8_t { unknown, rest, driven };
/// The level of the board's pin that drives the output: what switches it wants one or the other.
enum class DrivenLevel : std::uint8_t { high, low };
/// Which way a valve channel sends its figure; only a valve with two coils has one that sends it back.
enum class Coil : std::uint8_t { out, back };

/// What a channel switches, as its current sees it: what it draws when it starts, and what its contact bears.
enum class LoadKind : std::uint8_t { not_stated, coil, lamp, led, motor, fogger, sound_player, other };
/// What switches it.
enum class SwitchedBy : std::uint8_t { not_stated, relay, transistor };
/// What takes up the voltage of a coil that is switched off.
enum class Suppression : std::uint8_t {
    not_stated,
    none,
    diode,
    diode_and_zener,
    resistor_capacitor,
    varistor
};
/// The way back to the supply: a wire of its own, or the return that all on a supply share.
enum class ReturnPath : std::uint8_t { own_wire, shared_return };

/// The circuit of a channel: supply, fuse, switch, wire, load, and the way back. The load's steady current is
/// Channel::load_current_a.
struct Circuit {
    std::optional<SupplyId> supply;
    std::optional<SupplyId> returns_to;  ///< blank: to the supply that feeds it
    LoadKind load = LoadKind::not_stated;
    SwitchedBy switched_by = SwitchedBy::not_stated;
    Suppression suppression = Suppression::not_stated;
    ReturnPath return_path = ReturnPath::own_wire;
    Figure volts;              ///< the load's rated voltage
    Figure inrush_a;           ///< what the load draws as it is switched on
    Figure inrush_ms;          ///< for how long
    Figure least_percent;      ///< of the rated voltage, at which the load still does its work
    Figure duty_percent;       ///< largest share of the time it may be on (a coil's duty class)
    Figure longest_on_s;       ///< the longest it may be on at a stretch
    Figure switch_a;           ///< what the contact or transistor may switch of this kind of load
    Figure switch_volts;       ///< at most
    Figure switch_operations;  ///< the contact's life at that current
    Figure wire_mm2;
    Figure wire_length_m;  ///< one way, from the end of the shared feed, or the supply, to the load
    Figure fuse_a;
    std::string wire_colour;
    std::string route;  ///< where the wire runs
    std::string extra;
    bool operator==(const Circuit&) const = default;
};

/// One switched output of a board with what hangs on it.
struct Channel {
    ChannelId id;
    std::string name;
    ChannelKind kind = ChannelKind::lamp;
    Contact contact = Contact::normally_open;  ///< what the load sees at rest: nothing, or power
    std::optional<BoardId> board;
    std::optional<std::uint32_t> output;  ///< counted from 1, as printed on the board
    DrivenLevel driven_level = DrivenLevel::high;
    StartLevel start_level = StartLevel::unknown;
    Figure load_current_a;               ///< steadily, when on
    Figure shortest_on_ms;               ///< of its relay or lamp
    Figure shortest_off_ms;              ///< of its relay or lamp
    std::optional<ActuatorId> actuator;  ///< whose valve it switches
    Coil coil = Coil::out;
    std::vector<ChannelId>
        excludes;  ///< never on together with these; the two coils of a valve exclude anyway
    Circuit circuit;
    std::string extra;
    bool operator==(const Channel&) const = default;
};

/// What starts the runs of a board beside others: the trigger, wired to each of them, or a start line, on
/// which one board leads and the others follow.
enum class BoardStart : std::uint8_t { trigger, leads_line, follows_line };
/// Whether a board runs sequences only while its hold-to-run input is held.
enum class HoldToRun : std::uint8_t { no, yes };
/// What a board does when it has power again.
enum class PowerUp : std::uint8_t { ready, waits_for_rearm };

/// A microcontroller that plays an event table.
struct Board {
    BoardId id;
    std::string name;
    BoardStart start = BoardStart::trigger;
    HoldToRun hold_to_run = HoldToRun::no;
    PowerUp power_up = PowerUp::ready;
    Figure outputs;      ///< how many it has
    Figure tick_ms;      ///< the step of its clock; 1 ms where empty
    Figure clock_ppm;    ///< its clock may be off by so many millionths, either way
    Figure table_bytes;  ///< what it has room for
    std::string extra;
    bool operator==(const Board&) const = default;
};

enum class SensorKind : std::uint8_t { button, mat, beam, motion, other };

/// How several triggered sequences share the night: each has a trigger of its own, or one trigger plays them
/// in turn.
enum class TriggerSharing : std::uint8_t { own_triggers, in_turn };

/// The level of the sensor's signal that is a trigger.
enum class TriggerLevel : std::uint8_t { low, high };

/// What starts a triggered sequence, and how long it is then ignored.
struct Sensor {
    SensorKind kind = SensorKind::button;
    TriggerSharing sharing = TriggerSharing::own_triggers;
    TriggerLevel trigger_level = TriggerLevel::low;
    Figure debounce_ms;  ///< the signal counts once it has held so long
    Figure lockout_s;    ///< after the start of a run: how long further triggers are ignored
    Figure warm_up_s;
    std::string extra;
    bool operator==(const Sensor&) const = default;
};

struct Speaker {
    Figure power_w;
    Figure sensitivity_db;  ///< at 1 W and 1 m
    Figure distance_m;      ///< to the visitor's ear
    Figure player_lag_ms;   ///< from the start of the run to the first sound
    Figure clock_ppm;       ///< the player's clock may be off by so many millionths, either way
    std::string extra;
    bool operator==(const Speaker&) const = default;
};

enum class SupplyKind : std::uint8_t { adapter, battery, transformer, mains };

/// A source of power with the wires that all on it share: from its terminals to where the circuits part, and
/// the shared return back.
struct Supply {
    SupplyId id;
    std::string name;
    SupplyKind kind = SupplyKind::adapter;
    std::optional<SupplyId> fed_from;  ///< another supply, for a converter
    Figure volts;
    Figure rated_a;
    Figure use_percent;         ///< the share of its rating to plan with
    Figure efficiency_percent;  ///< of what it takes from `fed_from`
    Figure standing_a;          ///< drawn always: boards, sensor, player
    Figure capacity_ah;         ///< of a battery
    Figure fuse_a;
    Figure feed_mm2;  ///< from the supply's plus to where the circuits part
    Figure feed_length_m;
    Figure return_mm2;  ///< the shared return, from where the loads meet to the supply's minus
    Figure return_length_m;
    std::string extra;
    bool operator==(const Supply&) const = default;
};

/// All that is built. The order of the lists is the order in which the builder sees them.
struct Rig {
    AirPlant air_plant;
    std::vector<Actuator> actuators;
    std::vector<Channel> channels;
    std::vector<Board> boards;
    std::vector<Supply> supplies;
    Sensor sensor;
    Speaker speaker;
    std::string extra;
    bool operator==(const Rig&) const = default;
};

}  // namespace gasp
