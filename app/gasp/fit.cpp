// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/fitting/fitting.hpp"
#include "core/file/show_file.hpp"
#include "core/sound/heard_strokes.hpp"
#include "core/sound/knocks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace gasp {

namespace {

constexpr double by_stopwatch_ms = 30.0;
constexpr double by_recording_ms = 2.0;
constexpr double least_confidence = 0.05;

std::string_view word_of(Coil way) {
    return way == Coil::out ? "out" : "back";
}

std::string_view name_of(Fitted input) {
    switch (input) {
        case Fitted::friction:
            return "friction";
        case Fitted::conductance:
            return "conductances";
        case Fitted::delay:
            break;
    }
    return "valve delay";
}

Result<std::vector<TimedStroke>> typed(const FitOptions& options) {
    std::vector<TimedStroke> strokes;
    const auto take = [&](const std::vector<std::string>& texts, Coil way) -> Result<void> {
        for (const std::string& text : texts) {
            Result<double> ms = parse_quantity(Quantity::time_ms, text, UnitSystem::metric);
            if (!ms) {
                ms.error().where = fmt::format("--{}", word_of(way));
                return tl::unexpected(ms.error());
            }
            strokes.push_back({way, *ms, false});
        }
        return {};
    };
    if (const auto out = take(options.out, Coil::out); !out) {
        return tl::unexpected(out.error());
    }
    if (const auto back = take(options.back, Coil::back); !back) {
        return tl::unexpected(back.error());
    }
    return strokes;
}

Result<std::vector<HeardStroke>> heard(const Show& show, ActuatorId actuator, const std::string& recording) {
    const Result<StrokeTimes> expected = stroke_times(show, actuator);
    if (!expected) {
        return tl::unexpected(expected.error());
    }
    const Result<std::vector<Knock>> knocks = find_knocks(recording);
    if (!knocks) {
        return tl::unexpected(knocks.error());
    }
    Result<std::vector<HeardStroke>> strokes = pair_strokes(
        *knocks, {expected->out_ms - expected->out_delay_ms, expected->back_ms - expected->back_delay_ms});
    if (!strokes) {
        strokes.error().where = recording;
        return strokes;
    }
    std::erase_if(*strokes, [](const HeardStroke& each) { return each.confidence < least_confidence; });
    return strokes;
}

Result<double> reading_of(const FitOptions& options) {
    if (options.reading.empty()) {
        return options.recording.empty() ? by_stopwatch_ms : by_recording_ms;
    }
    Result<double> ms = parse_quantity(Quantity::time_ms, options.reading, UnitSystem::metric);
    if (!ms) {
        ms.error().where = "--reading";
    }
    return ms;
}

/// A show goes where its sounds are found: its own file, or one beside it.
Result<void> check_output(const FitOptions& options) {
    const std::filesystem::path output = options.output;
    if (output.extension() != ".gasp") {
        return fail("a show's name ends on .gasp", options.output, "Choose such a name");
    }
    std::error_code error;
    const auto folder_of = [&](const std::filesystem::path& file) {
        return std::filesystem::weakly_canonical(std::filesystem::absolute(file, error).parent_path(), error);
    };
    if (folder_of(output) != folder_of(options.show)) {
        return fail("it is not in the folder of the show it is made of, where its sounds are", options.output,
                    "Keep it beside " + options.show);
    }
    if (std::filesystem::exists(output, error) && !std::filesystem::equivalent(output, options.show, error)) {
        return fail("there is another show of that name", options.output,
                    "Choose a new name, or the show's own");
    }
    return {};
}

Json json_of(const Actuator& actuator, const StrokeFit& fit, const std::vector<HeardStroke>& heard) {
    Json json{{"actuator", actuator.name}, {"inputs", Json::array()}, {"strokes", Json::array()}};
    for (const FittedInput& input : fit.inputs) {
        json["inputs"].push_back({{"input", name_of(input.input)},
                                  {"factor", input.factor},
                                  {"spread_before_percent", input.spread_before_percent},
                                  {"spread_percent", input.spread_percent}});
    }
    for (const FittedStroke& stroke : fit.strokes) {
        json["strokes"].push_back({{"way", word_of(stroke.timed.way)},
                                   {"from", stroke.timed.from_click ? "click" : "coil"},
                                   {"timed_ms", stroke.timed.ms},
                                   {"before_ms", stroke.before_ms},
                                   {"after_ms", stroke.after_ms}});
    }
    for (std::size_t i = 0; i < heard.size(); ++i) {
        json["strokes"][i]["click_s"] = heard[i].click_s;
        json["strokes"][i]["thump_s"] = heard[i].thump_s;
        json["strokes"][i]["confidence"] = heard[i].confidence;
    }
    json["reading_ms"] = fit.reading_ms;
    json["off_before_ms"] = fit.off_before_ms;
    json["off_after_ms"] = fit.off_after_ms;
    json["out_spread_before_ms"] = fit.time_spread_before_ms[0];
    json["out_spread_ms"] = fit.time_spread_ms[0];
    json["back_spread_before_ms"] = fit.time_spread_before_ms[1];
    json["back_spread_ms"] = fit.time_spread_ms[1];
    json["notes"] = fit.notes;
    return json;
}

std::string strokes_text(const StrokeFit& fit, const std::vector<HeardStroke>& heard) {
    using enum TextGrid::Align;
    TextGrid grid({left, right, right, right, right, right}, "  ");
    std::vector<std::string> head{"stroke", "timed", "before", "after"};
    if (!heard.empty()) {
        head.insert(head.end(), {"click at", "sure"});
    }
    grid.add(head);
    for (std::size_t i = 0; i < fit.strokes.size(); ++i) {
        const FittedStroke& stroke = fit.strokes[i];
        std::vector<std::string> line{
            std::string(word_of(stroke.timed.way)), fmt::format("{:.0f} ms", stroke.timed.ms),
            fmt::format("{:.0f} ms", stroke.before_ms), fmt::format("{:.0f} ms", stroke.after_ms)};
        if (i < heard.size()) {
            line.push_back(fmt::format("{:.3f} s", heard[i].click_s));
            line.push_back(fmt::format("{:.0f} %", heard[i].confidence * 100.0));
        }
        grid.add(line);
    }
    grid.add({"off, root mean square", "", fmt::format("{:.0f} ms", fit.off_before_ms),
              fmt::format("{:.0f} ms", fit.off_after_ms)});
    return grid.text();
}

std::string text_of(const Actuator& actuator, const StrokeFit& fit, const std::vector<HeardStroke>& heard) {
    using enum TextGrid::Align;
    TextGrid head({left});
    head.add(
        {fmt::format("{}, {} strokes timed {}, each to about {:.0f} ms", actuator.name, fit.strokes.size(),
                     heard.empty() ? "from the coil" : "from the valve's click", fit.reading_ms)});
    TextGrid inputs({left, right, right, right}, "  ");
    inputs.add({"", "factor", "off before by", "now by"});
    for (const FittedInput& input : fit.inputs) {
        inputs.add({std::string(name_of(input.input)), fmt::format("{:.2f}", input.factor),
                    fmt::format("{:.0f} %", input.spread_before_percent),
                    fmt::format("{:.0f} %", input.spread_percent)});
    }
    std::string text = head.text() + strokes_text(fit, heard) + "\n" + inputs.text() +
                       fmt::format(
                           "\nThe model's time out is now good to {:.0f} ms either way, {:.0f} before; "
                           "back to {:.0f}, {:.0f} before.\n",
                           fit.time_spread_ms[0], fit.time_spread_before_ms[0], fit.time_spread_ms[1],
                           fit.time_spread_before_ms[1]);
    for (const std::string& note : fit.notes) {
        text += fmt::format("\n{}.\n", note);
    }
    return text;
}

}  // namespace

Result<Outcome> run(const FitOptions& options) {
    Result<Show> show = load_show(options.show);
    if (!show) {
        return tl::unexpected(show.error());
    }
    const Result<Actuator*> actuator = find_actuator(*show, options.actuator, options.show);
    if (!actuator) {
        return tl::unexpected(actuator.error());
    }
    std::vector<HeardStroke> from_sound;
    Result<std::vector<TimedStroke>> strokes = typed(options);
    if (!options.recording.empty()) {
        Result<std::vector<HeardStroke>> found = heard(*show, (*actuator)->id, options.recording);
        if (!found) {
            return tl::unexpected(found.error());
        }
        from_sound = std::move(*found);
        strokes->clear();
        for (const HeardStroke& stroke : from_sound) {
            strokes->push_back({stroke.way, stroke.ms(), true});
        }
    }
    if (!strokes) {
        return tl::unexpected(strokes.error());
    }
    const Result<double> reading = reading_of(options);
    if (!reading) {
        return tl::unexpected(reading.error());
    }
    const Result<StrokeFit> fit = fit_strokes(*show, (*actuator)->id, *strokes, {*reading});
    if (!fit) {
        return tl::unexpected(fit.error());
    }
    Outcome outcome;
    outcome.text = options.json ? json_text(json_of(**actuator, *fit, from_sound))
                                : text_of(**actuator, *fit, from_sound);
    if (!options.output.empty()) {
        (*actuator)->fit = fit->fit;
        const Result<void> saved =
            check_output(options).and_then([&] { return save_show(*show, options.output); });
        if (!saved) {
            return tl::unexpected(saved.error());
        }
        outcome.messages.push_back(
            fmt::format("{}: the fit of \"{}\" is kept in it", options.output, options.actuator));
    }
    return outcome;
}

}  // namespace gasp
