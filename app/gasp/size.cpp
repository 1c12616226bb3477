// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/size_flags.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/sizing/sizing.hpp"
#include "core/file/show_file.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace gasp {

namespace {

using Q = Quantity;

std::string_view flag_of(std::string_view key) {
    if (key == "action") {
        return "--drive";
    }
    const auto flag = std::ranges::find(size_flags, key, &SizeFlag::key);
    return flag != size_flags.end() ? flag->flag : std::string_view();
}

Error at_flag(Error error) {
    if (const std::string_view flag = flag_of(error.where); !flag.empty()) {
        error.where = flag;
    }
    return error;
}

Result<SizingTask> task_of(const SizeOptions& options) {
    const Fields<SizingTask>& all = fields<SizingTask>();
    SizingTask task;
    if (!options.like.empty()) {
        Result<Show> show = load_show(options.like);
        if (!show) {
            return tl::unexpected(show.error());
        }
        const Result<Actuator*> actuator = find_actuator(*show, options.actuator, options.like);
        if (!actuator) {
            return tl::unexpected(actuator.error());
        }
        task = sizing_task(*show, **actuator);
    }
    for (const auto& [key, text] : options.figures) {
        const auto field = std::ranges::find(all.figures, key, &FigureField<SizingTask>::key);
        Result<double> value = parse_quantity(field->quantity, text, options.units);
        if (!value) {
            value.error().where = flag_of(key);
            return tl::unexpected(value.error());
        }
        task.*(field->member) = *value;
    }
    if (!options.drive.empty()) {
        const ChoiceField<SizingTask>& drive = all.choices.front();
        const auto chosen = std::ranges::find(drive.keys, options.drive);
        drive.set(task, static_cast<std::size_t>(chosen - drive.keys.begin()));
    }
    return task;
}

Json json_of(const Sizing& sizing) {
    Json json{{"parts", Json::array()}};
    for (const SizedFigure& figure : sizing.figures) {
        json["parts"].push_back({{"field", figure.key},
                                 {"label", figure.label},
                                 {"needed", figure.needed},
                                 {"chosen", figure.chosen},
                                 {"size", figure.size},
                                 {"margin_percent", figure.margin * 100.0},
                                 {"reason", figure.reason}});
    }
    json["simulated"] = {{"out_ms", sizing.out_ms},
                         {"back_ms", sizing.back_ms},
                         {"end_speed_m_s", sizing.end_speed_m_s},
                         {"end_energy_j", sizing.end_energy_j},
                         {"cycle_l", sizing.cycle_l},
                         {"lowest_receiver_kpa_gauge", sizing.lowest_receiver_kpa_gauge}};
    json["notes"] = sizing.notes;
    return json;
}

std::string print(Q quantity, double value, UnitSystem units) {
    return print_rounded(quantity, value, units, 3);
}

std::string text_of(const Sizing& sizing, UnitSystem units) {
    using enum TextGrid::Align;
    TextGrid parts({left, right, right, right, left});
    parts.add({"part", "at least", "take", "over", ""});
    std::string why = "\nWhy\n";
    for (const SizedFigure& figure : sizing.figures) {
        const bool given = figure.needed == figure.chosen;
        parts.add({figure.label, given ? "" : print(figure.quantity, figure.needed, units),
                   print(figure.quantity, figure.chosen, units),
                   given ? "" : fmt::format("{:.0f} %", figure.margin * 100.0), figure.size});
        why += fmt::format("  {}: {}.\n", figure.label, figure.reason);
    }
    TextGrid moves({left, right}, "  ");
    moves.add({"out", fmt::format("{:.0f} ms", sizing.out_ms)});
    moves.add({"back", fmt::format("{:.0f} ms", sizing.back_ms)});
    moves.add({"speed at the stop, out", print(Q::speed, sizing.end_speed_m_s, units)});
    moves.add({"energy at the stop, out", print(Q::energy, sizing.end_energy_j, units)});
    moves.add({"free air out and back", print(Q::free_air, sizing.cycle_l, units)});
    moves.add({"lowest in the receiver", print(Q::gauge_pressure, sizing.lowest_receiver_kpa_gauge, units)});
    std::string text = parts.text() + "\nAs simulated with them\n" + moves.text() + why + "\nMind\n";
    for (const std::string& note : sizing.notes) {
        text += fmt::format("  {}.\n", note);
    }
    return text;
}

}  // namespace

Result<Outcome> run(const SizeOptions& options) {
    const Result<SizingTask> task = task_of(options);
    if (!task) {
        return tl::unexpected(task.error());
    }
    const Result<Sizing> sizing = size_rig(*task, options.units);
    if (!sizing) {
        return tl::unexpected(at_flag(sizing.error()));
    }
    Outcome outcome;
    outcome.text = options.json ? json_text(json_of(*sizing)) : text_of(*sizing, options.units);
    return outcome;
}

}  // namespace gasp
