// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"

#include "core/show/fields_building.hpp"
#include "core/show/night_limits.hpp"

#include <fmt/format.h>

#include <array>
#include <string>

namespace gasp {
namespace {

using std::string_view;
using Q = Quantity;

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
constexpr std::array<string_view, 2> level_keys{"high", "low"};
constexpr std::array<string_view, 2> level_labels{"High level drives it", "Low level drives it"};
constexpr std::array<string_view, 3> board_start_keys{"trigger", "leads_line", "follows_line"};
constexpr std::array<string_view, 3> board_start_labels{"The trigger", "The trigger, and leads a start line",
                                                        "The start line of the board that leads"};
constexpr std::array<string_view, 2> hold_keys{"no", "yes"};
constexpr std::array<string_view, 2> hold_labels{"Not used", "Runs only while held"};
constexpr std::array<string_view, 2> power_up_keys{"ready", "waits_for_rearm"};
constexpr std::array<string_view, 2> power_up_labels{"Ready at once", "Waits for its re-arm button"};
constexpr std::array<string_view, 2> trigger_level_keys{"low", "high"};
constexpr std::array<string_view, 2> trigger_level_labels{"Low level", "High level"};
constexpr std::array<string_view, 2> sharing_keys{"own_triggers", "in_turn"};
constexpr std::array<string_view, 2> sharing_labels{"Each has its own", "One plays them in turn"};
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
        F{"delivery_at_kpa_gauge", "Stated at", Q::gauge_pressure, 0, 4000, &AirPlant::delivery_at_kpa_gauge,
          "Receiver pressure at which the delivery is stated; blank counts as the same at any pressure."},
        F{"second_delivery_l_min", "Second delivery", Q::free_air_flow, 0.1, 100000,
          &AirPlant::second_delivery_l_min, "Free air delivered at another pressure."},
        F{"second_delivery_at_kpa_gauge", "Second stated at", Q::gauge_pressure, 0, 4000,
          &AirPlant::second_delivery_at_kpa_gauge, "Receiver pressure of the second delivery."},
        F{"duty_percent", "Compressor duty", Q::percent, 1, 100, &AirPlant::duty_percent,
          "Largest share of the time its maker lets it run."},
        F{"starts_per_h", "Starts an hour", Q::number, 1, 1000, &AirPlant::starts_per_h,
          "Most starts an hour its maker allows."},
        F{"regulator_kpa_gauge", "Regulator", Q::gauge_pressure, 10, 2000, &AirPlant::regulator_kpa_gauge,
          "Pressure set for the props."},
        F{"regulator_c_l_s_bar", "Regulator conductance", Q::conductance, 0.001, 10000,
          &AirPlant::regulator_c_l_s_bar, "Sonic conductance C from its sheet (ISO 6358)."},
        F{"regulator_b", "Regulator ratio b", Q::number, 0, 0.95, &AirPlant::regulator_b,
          "Critical pressure ratio from its sheet (ISO 6358); 0.3 where nothing is known."},
        F{"leak_c_l_s_bar", "Leak", Q::conductance, 0, 100, &AirPlant::leak_c_l_s_bar,
          "Conductance of all leaks together, if you know it; else time a fall of pressure."},
        F{"leak_from_kpa_gauge", "Falls from", Q::gauge_pressure, 1, 4000, &AirPlant::leak_from_kpa_gauge,
          "Receiver pressure at the start of a timed fall, compressor off and nothing moving."},
        F{"leak_to_kpa_gauge", "Falls to", Q::gauge_pressure, 0, 4000, &AirPlant::leak_to_kpa_gauge,
          "Receiver pressure at the end of the timed fall."},
        F{"leak_s", "Falls within", Q::time_s, 1, 1000000, &AirPlant::leak_s, "How long the fall took."},
        F{"altitude_m", "Altitude", Q::length, -500, 6000, &AirPlant::altitude_m,
          "Of the place; thin air gives a compressor less to deliver. Blank counts as sea level."},
        F{"temperature_c", "Air temperature", Q::temperature, -40, 60, &AirPlant::temperature_c,
          "On the night."},
    };
    static constexpr Fields<AirPlant> all{{}, figures};
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
        choice<Channel, DrivenLevel, &Channel::driven_level>(
            "driven_level", "Board's pin", level_keys, level_labels,
            "Level of the board's pin that drives the output; many relay boards want low."),
        choice<Channel, StartLevel, &Channel::start_level>(
            "start_level", "While the board starts", start_keys, start_labels,
            "What this output does at power-up, before the player holds it; watch it with the air off."),
        choice<Channel, Coil, &Channel::coil>("coil", "Coil", coil_keys, coil_labels,
                                              "Which way a valve channel sends its figure."),
    };
    static constexpr std::array figures{
        F{"load_current_a", "Load current", Q::current, 0, 100, &Channel::load_current_a,
          "What the load draws steadily when on."},
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
    static constexpr std::array choices{
        choice<Board, BoardStart, &Board::start>("start", "Runs start by", board_start_keys,
                                                 board_start_labels,
                                                 "Boards beside each other: all see the trigger, or one "
                                                 "leads a start line that the others follow."),
        choice<Board, HoldToRun, &Board::hold_to_run>(
            "hold_to_run", "Hold-to-run input", hold_keys, hold_labels,
            "A button that someone who sees the prop must hold; letting go puts everything to rest."),
        choice<Board, PowerUp, &Board::power_up>("power_up", "After power-up", power_up_keys, power_up_labels,
                                                 "Whether it may play before somebody has looked."),
    };
    static constexpr std::array figures{
        F{"outputs", "Outputs", Q::number, 1, 1024, &Board::outputs, "How many it can switch."},
        F{"tick_ms", "Tick", Q::time_ms, 0.1, 1000, &Board::tick_ms, "Step of its clock; 1 ms where empty."},
        F{"clock_ppm", "Clock tolerance", Q::number, 0, 100000, &Board::clock_ppm,
          "Millionths, either way: about 50 with a crystal, 5000 with a ceramic resonator."},
        F{"table_bytes", "Room for tables", Q::number, 16, 16777216, &Board::table_bytes,
          "Bytes it keeps for tables; the board tells when it is asked to identify itself."},
    };
    static constexpr Fields<Board> all{choices, figures};
    return all;
}

template <>
const Fields<Sensor>& fields<Sensor>() {
    using F = FigureField<Sensor>;
    static constexpr std::array choices{
        choice<Sensor, SensorKind, &Sensor::kind>("kind", "Sensor", sensor_keys, sensor_labels,
                                                  "What the visitor sets off."),
        choice<Sensor, TriggerSharing, &Sensor::sharing>("sharing", "Several sequences", sharing_keys,
                                                         sharing_labels,
                                                         "How triggered sequences share the trigger."),
        choice<Sensor, TriggerLevel, &Sensor::trigger_level>(
            "trigger_level", "Trigger is", trigger_level_keys, trigger_level_labels,
            "Low with a contact to ground, as buttons and mats are wired; high from most motion sensors."),
    };
    static constexpr std::array figures{
        F{"debounce_ms", "Debounce", Q::time_ms, 0, 1000, &Sensor::debounce_ms,
          "How long its signal must hold before it counts; 20 ms where blank."},
        F{"lockout_s", "Lockout", Q::time_s, 0, 3600, &Sensor::lockout_s,
          "How long after a trigger further triggers are ignored."},
        F{"warm_up_s", "Warm-up", Q::time_s, 0, 600, &Sensor::warm_up_s,
          "How long after power-up its signal means nothing."},
    };
    static constexpr Fields<Sensor> all{choices, figures};
    return all;
}

template <>
const Fields<NightPlan>& fields<NightPlan>() {
    using F = FigureField<NightPlan>;
    namespace blank = night_where_blank;
    static const std::string hours =
        fmt::format("How long the doors are open; {:g} where blank.", blank::hours);
    static const std::string groups =
        fmt::format("How many groups come in an hour, on average; they come at random; {:g} where blank.",
                    blank::groups_per_h);
    static const std::string weak = fmt::format(
        "A strike later than its usual moment by more counts as weak; {:g} ms where blank.", blank::weak_ms);
    static const std::string runs =
        fmt::format("More of them give steadier shares; {} where blank.", blank::runs);
    static const std::string seed =
        fmt::format("A whole number: the same one gives the same nights; {} where blank.", blank::seed);
    static const std::array figures{
        F{"hours", "Hours", Q::number, 0.1, 24, &NightPlan::hours, hours},
        F{"groups_per_h", "Groups an hour", Q::number, 0, most_groups_per_h, &NightPlan::groups_per_h,
          groups},
        F{"weak_ms", "Weak from", Q::time_ms, 1, 5000, &NightPlan::weak_ms, weak},
        F{"runs", "Nights tried", Q::number, 1, most_nights, &NightPlan::runs, runs},
        F{"seed", "Seed", Q::number, 0, 9007199254740991.0, &NightPlan::seed, seed},
    };
    static const Fields<NightPlan> all{{}, figures};
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
        F{"clock_ppm", "Player's clock tolerance", Q::number, 0, 100000, &Speaker::clock_ppm,
          "Millionths, either way; about 50 with a crystal."},
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
