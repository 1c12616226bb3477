// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "core/show/fields_building.hpp"

#include <array>

namespace gasp {
namespace {

using std::string_view;
using Q = Quantity;

constexpr std::array<string_view, 8> load_keys{"not_stated", "coil",   "lamp",         "led",
                                               "motor",      "fogger", "sound_player", "other"};
constexpr std::array<string_view, 8> load_labels{"Not stated",   "Coil",  "Lamp with a filament",
                                                 "LED lamp",     "Motor", "Fog machine",
                                                 "Sound player", "Other"};
constexpr std::array<string_view, 3> switch_keys{"not_stated", "relay", "transistor"};
constexpr std::array<string_view, 3> switch_labels{"Not stated", "Relay", "Transistor"};
constexpr std::array<string_view, 6> suppression_keys{
    "not_stated", "none", "diode", "diode_and_zener", "resistor_capacitor", "varistor"};
constexpr std::array<string_view, 6> suppression_labels{
    "Not stated", "None", "Diode", "Diode and Zener diode", "Resistor and capacitor", "Varistor"};
constexpr std::array<string_view, 2> return_keys{"own_wire", "shared_return"};
constexpr std::array<string_view, 2> return_labels{"A wire of its own", "The supply's shared return"};
constexpr std::array<string_view, 4> supply_keys{"adapter", "battery", "transformer", "mains"};
constexpr std::array<string_view, 4> supply_labels{"Adapter or converter, DC", "Battery", "Transformer, AC",
                                                   "Mains"};

}  // namespace

template <>
const Fields<Circuit>& fields<Circuit>() {
    using F = FigureField<Circuit>;
    using T = TextField<Circuit>;
    static constexpr std::array choices{
        choice<Circuit, LoadKind, &Circuit::load>(
            "load", "Load", load_keys, load_labels,
            "What it is to the contact: each kind draws and arcs differently."),
        choice<Circuit, SwitchedBy, &Circuit::switched_by>("switched_by", "Switched by", switch_keys,
                                                           switch_labels, "What the board's output works."),
        choice<Circuit, Suppression, &Circuit::suppression>(
            "suppression", "Suppression", suppression_keys, suppression_labels,
            "Across a coil or motor, to take up its voltage as it is switched off; a diode slows the "
            "release."),
        choice<Circuit, ReturnPath, &Circuit::return_path>(
            "return_path", "Return", return_keys, return_labels, "The way back from the load to the supply."),
    };
    static constexpr std::array figures{
        F{"volts_v", "Rated voltage", Q::voltage, 0.5, 1000, &Circuit::volts, "As printed on the load."},
        F{"inrush_a", "Inrush current", Q::current, 0, 1000, &Circuit::inrush_a,
          "What it draws as it is switched on; a cold filament some ten times its steady current."},
        F{"inrush_ms", "Inrush lasts", Q::time_ms, 0, 60000, &Circuit::inrush_ms,
          "Until it draws its steady current."},
        F{"least_percent", "Works from", Q::percent, 1, 100, &Circuit::least_percent,
          "Share of its rated voltage at which it still does its work; a coil's pull-in from its sheet."},
        F{"duty_percent", "Duty", Q::percent, 0.1, 100, &Circuit::duty_percent,
          "Largest share of the time it may be on, from its sheet; 100 % for a continuous coil."},
        F{"longest_on_s", "Longest on", Q::time_s, 0.01, 86400, &Circuit::longest_on_s,
          "The longest it may be on at a stretch, from its sheet."},
        F{"switch_a", "Contact rating", Q::current, 0.001, 1000, &Circuit::switch_a,
          "What the contact or transistor may switch of this kind of load, not of a heater."},
        F{"switch_volts_v", "Contact voltage", Q::voltage, 0.5, 1000, &Circuit::switch_volts,
          "The highest voltage it may switch, DC or AC as the supply is."},
        F{"switch_operations", "Contact life", Q::number, 1, 1e12, &Circuit::switch_operations,
          "Operations its maker states at that current."},
        F{"wire_mm2", "Wire", Q::wire_area, 0.005, 240, &Circuit::wire_mm2, "Copper, as 18 AWG or 0.75 mm2."},
        F{"wire_length_m", "Wire length", Q::length, 0.01, 1000, &Circuit::wire_length_m,
          "One way, from the end of the shared feed, or from the supply's terminal, to the load."},
        F{"fuse_a", "Fuse", Q::current, 0.001, 1000, &Circuit::fuse_a, "Of this circuit alone."},
    };
    static constexpr std::array texts{
        T{"wire_colour", "Wire colour", &Circuit::wire_colour, "As you name it on the chart."},
        T{"route", "Route", &Circuit::route, "Where the wire runs: behind the locker, under the ramp."},
    };
    static constexpr Fields<Circuit> all{choices, figures, texts};
    return all;
}

template <>
const Fields<Supply>& fields<Supply>() {
    using F = FigureField<Supply>;
    static constexpr std::array choices{
        choice<Supply, SupplyKind, &Supply::kind>(
            "kind", "Kind", supply_keys, supply_labels,
            "Mains, and whatever is wired to it, is work for a licensed electrician."),
    };
    static constexpr std::array figures{
        F{"volts_v", "Voltage", Q::voltage, 0.5, 1000, &Supply::volts, "Between its terminals."},
        F{"rated_a", "Rated current", Q::current, 0.001, 10000, &Supply::rated_a,
          "What it may give for good."},
        F{"use_percent", "Use of its rating", Q::percent, 1, 100, &Supply::use_percent,
          "The share of its rating to plan with; 80 % where blank."},
        F{"efficiency_percent", "Efficiency", Q::percent, 1, 100, &Supply::efficiency_percent,
          "Of a converter: what it gives of what it takes; 85 % where blank."},
        F{"standing_a", "Standing current", Q::current, 0, 1000, &Supply::standing_a,
          "What hangs on it always: boards, sensor, player, relay coils."},
        F{"capacity_ah", "Capacity", Q::charge, 0.01, 10000, &Supply::capacity_ah, "Of a battery."},
        F{"fuse_a", "Fuse", Q::current, 0.001, 10000, &Supply::fuse_a,
          "At its terminals, before the circuits part."},
        F{"feed_mm2", "Shared feed", Q::wire_area, 0.005, 240, &Supply::feed_mm2,
          "The wire from its plus to where the circuits part; blank: they part at its terminal."},
        F{"feed_length_m", "Shared feed length", Q::length, 0.01, 1000, &Supply::feed_length_m, "One way."},
        F{"return_mm2", "Shared return", Q::wire_area, 0.005, 240, &Supply::return_mm2,
          "The wire that loads with a shared return have in common."},
        F{"return_length_m", "Shared return length", Q::length, 0.01, 1000, &Supply::return_length_m,
          "From where the loads meet to its minus."},
    };
    static constexpr Fields<Supply> all{choices, figures};
    return all;
}

}  // namespace gasp
