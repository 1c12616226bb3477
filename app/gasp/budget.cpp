// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/schedule/schedule.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gasp {

namespace {

std::string_view way_of(const StrokeCommand& command) {
    return command.way == Coil::out ? "out" : "back";
}

std::string actuator_of(const Show& show, const StrokeCommand& command) {
    const Actuator* actuator = find(show, command.actuator);
    return actuator == nullptr ? std::string() : actuator->name;
}

Json json_of(const Show& show, const Sequence& sequence, const AirBudget& air) {
    Json json{{"sequence", sequence.name}, {"length_us", sequence.length.count()}};
    if (!air.curve.empty()) {
        json["free_air_l"] = air.free_air_l;
        json["lowest_kpa_gauge"] = air.lowest_kpa_gauge;
        json["lowest_at_us"] = air.lowest_at.count();
        json["compressor_on_s"] = air.compressor_on_s;
    }
    json["strokes"] = Json::array();
    for (const BudgetStroke& stroke : air.strokes) {
        json["strokes"].push_back({{"time_us", stroke.command.time.count()},
                                   {"actuator", actuator_of(show, stroke.command)},
                                   {"way", way_of(stroke.command)},
                                   {"free_air_l", stroke.free_air_l},
                                   {"receiver_kpa_gauge", stroke.receiver_kpa_gauge}});
    }
    json["curve"] = Json::array();
    for (const PressurePoint& point : air.curve) {
        json["curve"].push_back(
            {{"time_us", point.time.count()}, {"receiver_kpa_gauge", point.receiver_kpa_gauge}});
    }
    json["missing"] = Json::array();
    for (const BlankField& field : air.missing) {
        json["missing"].push_back({{"field", field.key}, {"label", field.label}});
    }
    return json;
}

/// To about a step in the document's unit, whatever the digits before the point, so that a column lines up.
std::string print_to(double step, Quantity quantity, double value, UnitSystem units) {
    const Unit& unit = shown_unit(quantity, units);
    const auto decimals = static_cast<int>(std::lround(std::log10(unit.scale / step)));
    return fmt::format("{:.{}f} {}", (value - unit.offset) / unit.scale, decimals, unit.name);
}

std::string print_air(double free_air_l, UnitSystem units) {
    return print_to(0.01, Quantity::free_air, free_air_l, units);
}

std::string print_pressure(double kpa_gauge, UnitSystem units) {
    return print_to(1.0, Quantity::gauge_pressure, kpa_gauge, units);
}

std::string strokes_text(const Show& show, const AirBudget& air, UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid grid({right, left, left, right, right}, "  ");
    grid.add({"time", "actuator", "way", "free air", "receiver after"});
    for (const BudgetStroke& stroke : air.strokes) {
        grid.add({print_time(stroke.command.time), actuator_of(show, stroke.command),
                  std::string(way_of(stroke.command)), print_air(stroke.free_air_l, units),
                  print_pressure(stroke.receiver_kpa_gauge, units)});
    }
    return grid.text();
}

std::string text_of(const Show& show, const Sequence& sequence, const AirBudget& air, UnitSystem units) {
    TextGrid head({TextGrid::Align::left});
    head.add({fmt::format("{}, {}", sequence.name, print_duration(sequence.length))});
    for (const BlankField& field : air.missing) {
        head.add({"  not checked: no " + field.label});
    }
    std::string text = head.text();
    if (air.curve.empty()) {
        return text;
    }
    text += air.strokes.empty() ? "  no strokes\n" : strokes_text(show, air, units);
    TextGrid sums({TextGrid::Align::left, TextGrid::Align::right, TextGrid::Align::left}, "  ");
    sums.add({"free air in all", print_air(air.free_air_l, units)});
    sums.add({"lowest in the receiver", print_pressure(air.lowest_kpa_gauge, units),
              "at " + print_time(air.lowest_at)});
    sums.add({"compressor runs", print_quantity(Quantity::time_s, air.compressor_on_s, units),
              "of " + print_duration(sequence.length)});
    return text + sums.text();
}

}  // namespace

Result<Outcome> run(const BudgetOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    Outcome outcome;
    outcome.sources = open->files;
    Json json{{"show", open->show.name}, {"sequences", Json::array()}};
    for (const Sequence* sequence : open->sequences) {
        const Schedule schedule = resolve(open->show, *sequence);
        const AirBudget air = budget(open->show, stroke_commands(open->show, schedule), schedule.length);
        json["sequences"].push_back(json_of(open->show, *sequence, air));
        outcome.text +=
            (outcome.text.empty() ? "" : "\n") + text_of(open->show, *sequence, air, options.units);
    }
    if (options.json) {
        outcome.text = json_text(json);
    } else {
        outcome.text += "\nEach run begins at cut-in, the least the switch lets the receiver stand at.\n";
    }
    return outcome;
}

}  // namespace gasp
