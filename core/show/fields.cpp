// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"

#include <array>

namespace gasp {
namespace {

using std::string_view;
using Q = Quantity;

template <class T, class E, E T::*member>
std::size_t get_choice(const T& part) {
    return static_cast<std::size_t>(part.*member);
}

template <class T, class E, E T::*member>
void set_choice(T& part, std::size_t value) {
    part.*member = static_cast<E>(value);
}

template <class T, class E, E T::*member>
constexpr ChoiceField<T> choice(string_view key, string_view label, std::span<const string_view> keys,
                                std::span<const string_view> labels, string_view help) {
    return {key, label, keys, labels, &get_choice<T, E, member>, &set_choice<T, E, member>, help};
}

constexpr std::array<string_view, 3> action_keys{"single_gravity_return", "single_spring_return",
                                                 "double_acting"};
constexpr std::array<string_view, 3> action_labels{"Single-acting, weight returns it",
                                                   "Single-acting, spring returns it", "Double-acting"};
constexpr std::array<string_view, 3> valve_keys{"three_two", "five_two_one_coil", "five_two_two_coils"};
constexpr std::array<string_view, 3> valve_labels{"3/2, one coil", "5/2, one coil", "5/2, two coils"};
constexpr std::array<string_view, 5> kind_keys{"valve", "lamp", "motor", "jaw", "other"};
constexpr std::array<string_view, 5> kind_labels{"Valve", "Lamp", "Motor", "Jaw", "Other"};
constexpr std::array<string_view, 2> contact_keys{"normally_open", "normally_closed"};
constexpr std::array<string_view, 2> contact_labels{"NO: no power at rest", "NC: power at rest"};
constexpr std::array<string_view, 3> start_keys{"unknown", "rest", "driven"};
constexpr std::array<string_view, 3> start_labels{"Not known", "Stays at rest", "Is driven"};
constexpr std::array<string_view, 2> coil_keys{"out", "back"};
constexpr std::array<string_view, 2> coil_labels{"Sends it out", "Sends it back"};
constexpr std::array<string_view, 5> sensor_keys{"button", "mat", "beam", "motion", "other"};
constexpr std::array<string_view, 5> sensor_labels{"Button", "Pressure mat", "Light beam", "Motion sensor",
                                                   "Other"};
constexpr std::array<string_view, 3> sequence_keys{"triggered", "idle", "by_hand"};
constexpr std::array<string_view, 3> sequence_labels{"On a trigger", "While idle", "By hand"};

}  // namespace

template <>
const Fields<AirPlant>& fields<AirPlant>() {
    using F = FigureField<AirPlant>;
    static constexpr std::array figures{
        F{"receiver_l", "Receiver", Q::volume, 0.1, 10000, &AirPlant::receiver_l,
          "Volume of the tank, as stamped on its plate."},
        F{"cut_in_kpa_gauge", "Cut-in", Q::gauge_pressure, 10, 4000, &AirPlant::cut_in_kpa_gauge,
          "Receiver pressure at which the compressor starts; read the gauge as it does."},
        F{"cut_out_kpa_gauge", "Cut-out", Q::gauge_pressure, 10, 4000, &AirPlant::cut_out_kpa_gauge,
          "Receiver pressure at which the compressor stops."},
        F{"delivery_l_min", "Free-air delivery", Q::free_air_flow, 0.1, 100000, &AirPlant::delivery_l_min,
          "Free air delivered at working pressure, not the displacement on the sticker."},
        F{"duty_percent", "Compressor duty", Q::percent, 1, 100, &AirPlant::duty_percent,
          "Largest share of the time its maker lets it run."},
        F{"regulator_kpa_gauge", "Regulator", Q::gauge_pressure, 10, 2000, &AirPlant::regulator_kpa_gauge,
          "Pressure set for the props."},
        F{"altitude_m", "Altitude", Q::length, -500, 6000, &AirPlant::altitude_m,
          "Of the place; thin air gives a compressor less to deliver. Blank counts as sea level."},
        F{"temperature_c", "Air temperature", Q::temperature, -40, 60, &AirPlant::temperature_c,
          "On the night."},
    };
    static constexpr Fields<AirPlant> all{{}, figures};
    return all;
}

template <>
const Fields<Cylinder>& fields<Cylinder>() {
    using F = FigureField<Cylinder>;
    static constexpr std::array choices{choice<Cylinder, CylinderAction, &Cylinder::action>(
        "action", "Action", action_keys, action_labels, "Which way air drives it, and what brings it back.")};
    static constexpr std::array figures{
        F{"bore_mm", "Bore", Q::small_length, 1, 500, &Cylinder::bore_mm, "Diameter of the piston."},
        F{"rod_mm", "Rod", Q::small_length, 0.5, 250, &Cylinder::rod_mm, "Diameter of the rod."},
        F{"stroke_mm", "Stroke", Q::small_length, 1, 5000, &Cylinder::stroke_mm, "Travel of the rod."},
        F{"spring_n", "Spring force", Q::force, 0, 20000, &Cylinder::spring_n,
          "Pull of the return spring with the rod in."},
        F{"rating_kpa_gauge", "Rated pressure", Q::gauge_pressure, 10, 5000, &Cylinder::rating_kpa_gauge,
          "Highest pressure its maker allows."},
    };
    static constexpr Fields<Cylinder> all{choices, figures};
    return all;
}

template <>
const Fields<Valve>& fields<Valve>() {
    using F = FigureField<Valve>;
    static constexpr std::array choices{choice<Valve, ValveKind, &Valve::kind>(
        "kind", "Valve", valve_keys, valve_labels, "Ports and positions, and how many coils shift it.")};
    static constexpr std::array figures{
        F{"opening_delay_ms", "Opening delay", Q::time_ms, 0, 2000, &Valve::opening_delay_ms,
          "From power on the coil to air at the port."},
        F{"closing_delay_ms", "Closing delay", Q::time_ms, 0, 2000, &Valve::closing_delay_ms,
          "From power off to the exhaust opening."},
        F{"shortest_on_ms", "Shortest dwell", Q::time_ms, 0, 10000, &Valve::shortest_on_ms,
          "The shortest time on with which it still shifts fully; try it on the bench."},
        F{"shortest_off_ms", "Shortest rest", Q::time_ms, 0, 10000, &Valve::shortest_off_ms,
          "The shortest time off before it may come on again."},
        F{"least_kpa_gauge", "Least pressure", Q::gauge_pressure, 0, 1000, &Valve::least_kpa_gauge,
          "Below it a pilot valve does not shift."},
    };
    static constexpr Fields<Valve> all{choices, figures};
    return all;
}

template <>
const Fields<Tube>& fields<Tube>() {
    using F = FigureField<Tube>;
    static constexpr std::array figures{
        F{"length_m", "Length", Q::length, 0, 100, &Tube::length_m, "From the valve to the cylinder's port."},
        F{"bore_mm", "Bore", Q::small_length, 0.5, 50, &Tube::bore_mm, "Inside diameter of the tube."},
    };
    static constexpr Fields<Tube> all{{}, figures};
    return all;
}

template <>
const Fields<Load>& fields<Load>() {
    using F = FigureField<Load>;
    static constexpr std::array figures{
        F{"mass_kg", "Moving mass", Q::mass, 0, 2000, &Load::mass_kg,
          "All that moves with the rod; weigh it."},
        F{"angle_deg", "Way out rises by", Q::angle, -90, 90, &Load::angle_deg,
          "Slope of the way out: 90 straight up, 0 level, -90 straight down."},
        F{"ratio", "Figure travel per rod travel", Q::number, 0.05, 50, &Load::ratio,
          "1 where the figure sits on the rod; 3 where a lever trebles its travel."},
        F{"friction_percent", "Friction", Q::percent, 0, 90, &Load::friction_percent,
          "Share of the piston's force lost to friction; 10 where nothing is known."},
    };
    static constexpr Fields<Load> all{{}, figures};
    return all;
}

template <>
const Fields<Motion>& fields<Motion>() {
    using F = FigureField<Motion>;
    static constexpr std::array figures{
        F{"out_ms", "Time out", Q::time_ms, 1, 60000, &Motion::out_ms,
          "From the coil switching to the figure fully out; film it."},
        F{"back_ms", "Time back", Q::time_ms, 1, 60000, &Motion::back_ms,
          "From the coil letting go to the figure fully back."},
    };
    static constexpr Fields<Motion> all{{}, figures};
    return all;
}

template <>
const Fields<Channel>& fields<Channel>() {
    using F = FigureField<Channel>;
    static constexpr std::array choices{
        choice<Channel, ChannelKind, &Channel::kind>("kind", "Kind", kind_keys, kind_labels,
                                                     "What hangs on it."),
        choice<Channel, Contact, &Channel::contact>("contact", "Contact", contact_keys, contact_labels,
                                                    "What the load sees while the output is at rest."),
        choice<Channel, StartLevel, &Channel::start_level>(
            "start_level", "While the board starts", start_keys, start_labels,
            "What this output does at power-up, before the player holds it; watch it with the air off."),
        choice<Channel, Coil, &Channel::coil>("coil", "Coil", coil_keys, coil_labels,
                                              "Which way a valve channel sends its figure."),
    };
    static constexpr std::array figures{
        F{"load_current_a", "Load current", Q::current, 0, 100, &Channel::load_current_a,
          "What the load draws when on."},
        F{"shortest_on_ms", "Shortest on", Q::time_ms, 0, 10000, &Channel::shortest_on_ms,
          "The shortest time its relay or lamp can be on."},
        F{"shortest_off_ms", "Shortest off", Q::time_ms, 0, 10000, &Channel::shortest_off_ms,
          "The shortest time its relay or lamp can be off."},
    };
    static constexpr Fields<Channel> all{choices, figures};
    return all;
}

template <>
const Fields<Board>& fields<Board>() {
    using F = FigureField<Board>;
    static constexpr std::array figures{
        F{"outputs", "Outputs", Q::number, 1, 1024, &Board::outputs, "How many it can switch."},
        F{"tick_ms", "Tick", Q::time_ms, 0.1, 1000, &Board::tick_ms, "Step of its clock; 1 ms where empty."},
    };
    static constexpr Fields<Board> all{{}, figures};
    return all;
}

template <>
const Fields<Sensor>& fields<Sensor>() {
    using F = FigureField<Sensor>;
    static constexpr std::array choices{choice<Sensor, SensorKind, &Sensor::kind>(
        "kind", "Sensor", sensor_keys, sensor_labels, "What the visitor sets off.")};
    static constexpr std::array figures{
        F{"lockout_s", "Lockout", Q::time_s, 0, 3600, &Sensor::lockout_s,
          "How long after a trigger further triggers are ignored."},
        F{"warm_up_s", "Warm-up", Q::time_s, 0, 600, &Sensor::warm_up_s,
          "How long after power-up its signal means nothing."},
    };
    static constexpr Fields<Sensor> all{choices, figures};
    return all;
}

template <>
const Fields<Speaker>& fields<Speaker>() {
    using F = FigureField<Speaker>;
    static constexpr std::array figures{
        F{"power_w", "Power", Q::power, 0.01, 10000, &Speaker::power_w, "What the amplifier gives it."},
        F{"sensitivity_db", "Sensitivity", Q::sound_level, 40, 130, &Speaker::sensitivity_db,
          "Level at 1 m from 1 W, from its sheet."},
        F{"distance_m", "To the visitor's ear", Q::length, 0.1, 200, &Speaker::distance_m,
          "Distance where the visitor stands."},
        F{"player_lag_ms", "Player lag", Q::time_ms, 0, 5000, &Speaker::player_lag_ms,
          "From the start of the run to the first sound."},
    };
    static constexpr Fields<Speaker> all{{}, figures};
    return all;
}

std::span<const string_view> sequence_kind_keys() {
    return sequence_keys;
}
std::span<const string_view> sequence_kind_labels() {
    return sequence_labels;
}

}  // namespace gasp
