// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/band_json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/model/blank_field.hpp"
#include "core/checks/band_wording.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <cmath>
#include <vector>

namespace gasp {

namespace {

std::string_view way_of(const StrokeCommand& command) {
    return command.way == Coil::out ? "out" : "back";
}

std::string actuator_of(const Show& show, const StrokeCommand& command) {
    const Actuator* actuator = find(show, command.actuator);
    return actuator == nullptr ? std::string() : actuator->name;
}

Json json_of(const Show& show, const Sequence& sequence, const SequenceRun& run) {
    Json json{{"sequence", sequence.name}, {"length_us", sequence.length.count()}};
    json["strokes"] = Json::array();
    json["curve"] = Json::array();
    json["missing"] = Json::array();
    for (const auto* fields : {&run.air.missing, &run.air.receiver_missing}) {
        for (const BlankField& field : *fields) {
            json["missing"].push_back({{"field", field.key}, {"label", field.label}});
        }
    }
    if (!run.air.run) {
        return json;
    }
    const AirRun& air = *run.air.run;
    json["free_air_l"] = air.free_air_l;
    // Of a receiver that lacks a figure nothing is said.
    const bool known = run.air.receiver_missing.empty();
    const auto of_receiver = [known](auto value) { return known ? Json(value) : Json(); };
    json["lowest_kpa_gauge"] = of_receiver(air.lowest_receiver_kpa);
    json["lowest_at_us"] = of_receiver(air.lowest_at.count());
    json["compressor_on_s"] = of_receiver(air.compressor_on_s);
    json["compressor_starts"] = of_receiver(air.compressor_starts);
    for (std::size_t i = 0; i < air.strokes.size(); ++i) {
        const Stroke& stroke = air.strokes[i];
        json["strokes"].push_back(
            {{"time_us", stroke.command.time.count()},
             {"actuator", actuator_of(show, stroke.command)},
             {"way", way_of(stroke.command)},
             {"free_air_l", stroke.free_air_l},
             {"receiver_kpa_gauge", of_receiver(stroke.receiver_kpa)},
             {"strike_s", stroke.strike_s() ? Json(*stroke.strike_s()) : Json()},
             {"receiver_at_strike_kpa_gauge", of_receiver(stroke.receiver_at_strike_kpa)},
             {"working_at_strike_kpa_gauge", stroke.working_at_strike_kpa}});
        if (i < run.air.bands.size()) {
            const StrokeBand& band = run.air.bands[i];
            json["strokes"].back()["measured"] = band.measured;
            json["strokes"].back()["strike_band_s"] = json_of(band.strike_s());
        }
    }
    for (const CurvePoint& point : known ? air.receiver_kpa.points : std::vector<CurvePoint>{}) {
        json["curve"].push_back(
            {{"time_us", std::llround(point.time_s * 1e6)}, {"receiver_kpa_gauge", point.value}});
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

/// "0:07.420 (7.40 to 7.46)", or what became of it instead.
std::string print_strike(const Stroke& stroke, const StrokeBand* band) {
    if (!stroke.strike_s()) {
        return stroke.end == StrokeEnd::turned ? "turned before" : "does not arrive";
    }
    const Band own{*stroke.strike_s(), *stroke.strike_s(), *stroke.strike_s()};
    return "after " + times(band != nullptr && band->strike_s() ? *band->strike_s() : own,
                            band != nullptr && band->measured);
}

std::string strokes_text(const Show& show, const SequenceRun& run, UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid grid({right, left, left, right, right, right, left}, "  ");
    grid.add({"time", "actuator", "way", "free air", "receiver", "working", "strike"});
    for (std::size_t i = 0; i < run.air.run->strokes.size(); ++i) {
        const Stroke& stroke = run.air.run->strokes[i];
        grid.add({print_time(stroke.command.time), actuator_of(show, stroke.command),
                  std::string(way_of(stroke.command)), print_air(stroke.free_air_l, units),
                  run.air.receiver_missing.empty() ? print_pressure(stroke.receiver_at_strike_kpa, units)
                                                   : std::string("-"),
                  print_pressure(stroke.working_at_strike_kpa, units),
                  print_strike(stroke, i < run.air.bands.size() ? &run.air.bands[i] : nullptr)});
    }
    return grid.text();
}

std::string text_of(const Show& show, const Sequence& sequence, const SequenceRun& run, UnitSystem units) {
    TextGrid head({TextGrid::Align::left});
    head.add({fmt::format("{}, {}", sequence.name, print_duration(sequence.length))});
    for (const auto* fields : {&run.air.missing, &run.air.receiver_missing}) {
        for (const BlankField& field : *fields) {
            head.add({"  not checked: no " + field.label});
        }
    }
    for (const Error& error : run.air.impossible) {
        head.add({"  not simulated: " + error.text()});
    }
    std::string text = head.text();
    if (!run.air.run) {
        return text;
    }
    const AirRun& air = *run.air.run;
    text += air.strokes.empty() ? "  no strokes\n" : strokes_text(show, run, units);
    TextGrid sums({TextGrid::Align::left, TextGrid::Align::right, TextGrid::Align::left}, "  ");
    sums.add({"free air in all", print_air(air.free_air_l, units)});
    if (run.air.receiver_missing.empty()) {
        sums.add({"lowest in the receiver", print_pressure(air.lowest_receiver_kpa, units),
                  "at " + print_time(air.lowest_at)});
        sums.add({"compressor runs", print_rounded(Quantity::time_s, air.compressor_on_s, units),
                  "of " + print_duration(sequence.length)});
    }
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
    AirMemo memo;
    Json json{{"show", open->show.name}, {"sequences", Json::array()}};
    for (const Sequence* sequence : open->sequences) {
        SequenceRun played = work_out(open->show, *sequence, memo);
        add_bands(played, open->show, memo);
        json["sequences"].push_back(json_of(open->show, *sequence, played));
        outcome.text +=
            (outcome.text.empty() ? "" : "\n") + text_of(open->show, *sequence, played, options.units);
    }
    if (options.json) {
        outcome.text = json_text(json);
    } else {
        outcome.text +=
            blanks_of_receiver(open->show.rig.air_plant).empty()
                ? "\nSimulated. Each run begins at cut-in, the least the switch lets the receiver stand at; "
                  "pressures are those at the strike.\n"
                : "\nSimulated. Each run begins at the regulator's pressure, and no compressor makes up for "
                  "what is drawn: the receiver is not checked.\n";
    }
    return outcome;
}

}  // namespace gasp
