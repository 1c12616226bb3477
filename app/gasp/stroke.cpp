// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/band_json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/model/base_load.hpp"
#include "core/checks/band_wording.hpp"
#include "core/schedule/sequence_run.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

constexpr Micros apart{20'000'000};
constexpr double moved_share = 0.002;
constexpr std::array<const char*, 4> reached_names{"to 10 %", "to 50 %", "strike, 95 %", "to 100 %"};

/// An actuator's stroke out and, long after, back, and its first one after air-on.
struct Cycle {
    BandedStroke out;
    BandedStroke back;
    BandedStroke first;
    std::optional<double> out_moves_s;  ///< lead to any travel
    std::optional<double> back_moves_s;
};

Result<Cycle> cycle_of(const Show& show, const Actuator& actuator, AirMemo& memo) {
    const StrokeCommand both[] = {{Micros{0}, actuator.id, Coil::out}, {apart, actuator.id, Coil::back}};
    const Result<AirRun> run = memo.run(0, both, 2 * apart);
    if (!run) {
        return tl::unexpected(run.error());
    }
    const auto bands = memo.bands(show, *run, both, 2 * apart);
    if (!bands) {
        return tl::unexpected(bands.error());
    }
    const Result<BandedStroke> first = memo.first(show, actuator.id);
    if (!first) {
        return tl::unexpected(first.error());
    }
    const ActuatorRun& own = *run->find(actuator.id);
    return Cycle{{run->strokes[0], (*bands)[0]},
                 {run->strokes[1], (*bands)[1]},
                 *first,
                 lead_s(own, run->strokes[0], moved_share, apart),
                 lead_s(own, run->strokes[1], moved_share, 2 * apart)};
}

std::string time_text(const BandedStroke& stroke, std::size_t i) {
    const auto& band = stroke.band.reached_s[i];
    return band ? times(*band, true) : "not reached";
}

std::string plain_time(const std::optional<double>& seconds) {
    return seconds ? times({*seconds, *seconds, *seconds}, true) : "does not move";
}

std::string anchor_text(const Actuator& actuator, const Cycle& cycle, UnitSystem units) {
    const auto blanks = blanks_of_base(actuator);
    if (!blanks.empty()) {
        return "not checked: no " + blanks.front().label;
    }
    const double force = std::max({cycle.out.band.peak_force_n.high, cycle.back.band.peak_force_n.high,
                                   cycle.first.band.peak_force_n.high});
    const Result<BaseLoad> load = base_load(actuator, force);
    if (!load) {
        return "not checked: " + load.error().text();
    }
    return load->anchor_n > 0.0 ? fmt::format("{} at the far edge, or {} of ballast over the middle",
                                              print_rounded_up(Quantity::force, load->anchor_n, units),
                                              print_rounded_up(Quantity::mass, load->ballast_kg, units))
                                : std::string("none: its own weight holds it");
}

std::string text_of(const Actuator& actuator, const Cycle& cycle, UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid grid({left, left, left, left}, "  ");
    grid.add({"", "out", "back", "first out after air-on"});
    grid.add({"moves after", plain_time(cycle.out_moves_s), plain_time(cycle.back_moves_s), ""});
    for (std::size_t i = 0; i < reached_names.size(); ++i) {
        grid.add(
            {reached_names[i], time_text(cycle.out, i), time_text(cycle.back, i), time_text(cycle.first, i)});
    }
    const auto row = [&](const char* name, Quantity quantity, Band StrokeBand::*figure) {
        const auto cell = [&](const BandedStroke& stroke) {
            return banded(quantity, stroke.band.*figure, true, units);
        };
        grid.add({name, cell(cycle.out), cell(cycle.back), cell(cycle.first)});
    };
    row("speed at the stop", Quantity::speed, &StrokeBand::end_speed_m_s);
    row("energy at the stop", Quantity::energy, &StrokeBand::end_energy_j);
    row("peak force on the base", Quantity::force, &StrokeBand::peak_force_n);
    TextGrid rest({left, left}, "  ");
    rest.add({"free air a cycle",
              print_rounded(Quantity::free_air, cycle.out.stroke.free_air_l + cycle.back.stroke.free_air_l,
                            units)});
    rest.add({"anchor", anchor_text(actuator, cycle, units)});
    TextGrid head({left});
    head.add({actuator.name + (cycle.out.band.measured ? ", fitted to timed strokes" : ", not measured")});
    return head.text() + grid.text() + rest.text();
}

Json json_of(const BandedStroke& stroke) {
    Json json{{"arrives", stroke.stroke.end == StrokeEnd::arrives}, {"measured", stroke.band.measured}};
    const std::array keys{"to_10_percent_s", "to_50_percent_s", "strike_s", "to_100_percent_s"};
    for (std::size_t i = 0; i < keys.size(); ++i) {
        json[keys[i]] = json_of(stroke.band.reached_s[i]);
    }
    json["end_speed_m_s"] = json_of(stroke.band.end_speed_m_s);
    json["end_energy_j"] = json_of(stroke.band.end_energy_j);
    json["peak_force_n"] = json_of(stroke.band.peak_force_n);
    json["free_air_l"] = stroke.stroke.free_air_l;
    return json;
}

Json json_of(const Actuator& actuator, const Cycle& cycle) {
    Json json{{"actuator", actuator.name},
              {"measured", cycle.out.band.measured},
              {"out", json_of(cycle.out)},
              {"back", json_of(cycle.back)},
              {"first_out_after_air_on", json_of(cycle.first)},
              {"free_air_a_cycle_l", cycle.out.stroke.free_air_l + cycle.back.stroke.free_air_l}};
    json["moves_after_s"] = cycle.out_moves_s ? Json(*cycle.out_moves_s) : Json();
    if (const auto load = base_load(actuator, cycle.out.band.peak_force_n.high)) {
        json["anchor_n"] = load->anchor_n;
        json["ballast_kg"] = load->ballast_kg;
    }
    return json;
}

/// What keeps an actuator out of the simulation.
std::vector<std::string> reasons(const AirModel& model, const Actuator& actuator) {
    std::vector<std::string> reasons;
    for (const BlankField& field : model.missing) {
        if (!field.actuator || field.actuator == actuator.id) {
            reasons.push_back("not checked: no " + field.label);
        }
    }
    for (const Error& error : model.impossible) {
        reasons.push_back("not simulated: " + error.text());
    }
    return reasons;
}

}  // namespace

Result<Outcome> run(const StrokeOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    Outcome outcome;
    outcome.sources = open->files;
    AirMemo memo;
    memo.take(open->show);
    if (!memo.model().impossible.empty()) {
        outcome.code = ExitCode::stop_findings;  // as gasp check has it
    }
    Json json{{"show", open->show.name}, {"actuators", Json::array()}};
    for (const Actuator& actuator : open->show.rig.actuators) {
        outcome.text += outcome.text.empty() ? "" : "\n";
        if (memo.model().find(actuator.id) == nullptr) {
            TextGrid lines({TextGrid::Align::left});
            lines.add({actuator.name});
            json["actuators"].push_back({{"actuator", actuator.name}, {"missing", Json::array()}});
            for (const std::string& reason : reasons(memo.model(), actuator)) {
                lines.add({"  " + reason});
                json["actuators"].back()["missing"].push_back(reason);
            }
            outcome.text += lines.text();
            continue;
        }
        const Result<Cycle> cycle = cycle_of(open->show, actuator, memo);
        if (!cycle) {
            return tl::unexpected(cycle.error());
        }
        json["actuators"].push_back(json_of(actuator, *cycle));
        outcome.text += text_of(actuator, *cycle, options.units);
    }
    if (options.json) {
        outcome.text = json_text(json);
    } else {
        outcome.text +=
            "\nSimulated, with the receiver at cut-in; figures carry the band of what is not known "
            "exactly.\nKeep everyone out of what a figure sweeps; anchoring goes by the local code.\n";
    }
    return outcome;
}

}  // namespace gasp
