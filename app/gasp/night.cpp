// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/long_work.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/night/night_answers.hpp"
#include "core/schedule/night_sequences.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

namespace gasp {

namespace {

using Q = Quantity;

/// A night's forecast with what it is told with.
struct Told {
    const OpenShow& open;
    const NightForecast& forecast;
    const std::vector<NightAnswer>& answers;
    const std::vector<Assumption>& assumptions;  ///< of the night and of the rig
    UnitSystem units;
};

std::string_view key_of(NightQuestion question) {
    switch (question) {
        case NightQuestion::most_groups:
            return "groups_per_h";
        case NightQuestion::least_receiver:
            return "receiver_l";
        case NightQuestion::least_delivery:
            return "delivery_l_min";
        case NightQuestion::lowest_regulation:
            break;
    }
    return "regulator_kpa_gauge";
}

std::string_view label_of(NightQuestion question) {
    switch (question) {
        case NightQuestion::most_groups:
            return "most groups an hour";
        case NightQuestion::least_receiver:
            return "smallest receiver";
        case NightQuestion::least_delivery:
            return "smallest free-air delivery";
        case NightQuestion::lowest_regulation:
            break;
    }
    return "lowest regulator setting";
}

std::string name_of(const Show& show, ActuatorId id) {
    const Actuator* actuator = find(show, id);
    return actuator == nullptr ? std::string() : actuator->name;
}

std::string name_of(const Show& show, SequenceId id) {
    const Sequence* sequence = find(show, id);
    return sequence == nullptr ? std::string() : sequence->name;
}

std::string_view word(Coil way) {
    return way == Coil::out ? "out" : "back";
}

Json json_of(const Spread& spread) {
    return {{"p5", spread.p5}, {"p50", spread.p50}, {"p95", spread.p95}};
}

Json json_of(const NightTerms& terms) {
    return {{"hours", terms.hours},
            {"groups_by_hour", terms.groups_by_hour},
            {"arrivals_s", terms.arrivals_s},
            {"weak_ms", terms.weak_s * 1e3},
            {"runs", terms.runs},
            {"seed", terms.seed},
            {"generator", SplitMix64::name}};
}

/// The strike, and its spread with unfavourable inputs.
Json json_of(const Show& show, const NightStrike& strike, const std::optional<Spread>& unfavourable) {
    Json json{{"sequence", name_of(show, strike.sequence)},
              {"actuator", name_of(show, strike.actuator)},
              {"way", word(strike.way)},
              {"at_us", strike.at.count()},
              {"strokes", strike.strokes},
              {"missed", strike.missed}};
    json["cut_short"] = strike.cut_short;
    if (strike.usual_s) {
        json["usual_s"] = *strike.usual_s;
    }
    if (strike.strike_s) {
        json["strike_s"] = json_of(*strike.strike_s);
    }
    if (unfavourable) {
        json["unfavourable_s"] = json_of(*unfavourable);
    }
    return json;
}

/// With unfavourable inputs, of strike `i`.
std::optional<Spread> unfavourable(const NightForecast& forecast, std::size_t i) {
    return forecast.unfavourable ? forecast.unfavourable->strike_s[i] : std::nullopt;
}

Json json_of_hours(const std::vector<NightHour>& hours) {
    Json json = Json::array();
    for (const NightHour& hour : hours) {
        json.push_back({{"delivered", hour.delivered}, {"refused", hour.refused}, {"weak", hour.weak}});
    }
    return json;
}

Json json_of_answers(const std::vector<NightAnswer>& answers) {
    Json json = Json::object();
    for (const NightAnswer& answer : answers) {
        const std::string key(key_of(answer.question));
        json[key] = {{"value", answer.value ? Json(*answer.value) : Json()}, {"reason", answer.reason}};
    }
    return json;
}

std::string json_of(const Told& told) {
    const NightForecast& forecast = told.forecast;
    Json json{{"show", told.open.show.name},
              {"night", json_of(forecast.terms)},
              {"groups", json_of(forecast.groups)},
              {"delivered", json_of(forecast.delivered)},
              {"refused", json_of(forecast.refused)},
              {"weak", json_of(forecast.weak)},
              {"share_without_weak", forecast.judged() ? Json(forecast.share_without_weak) : Json()},
              {"duty", json_of(forecast.duty)},
              {"duty_of_10_min", json_of(forecast.duty_of_10_min)},
              {"starts_in_an_hour", json_of(forecast.starts_in_an_hour)}};
    if (forecast.lowest_kpa_gauge) {
        json["lowest_kpa_gauge"] = json_of(*forecast.lowest_kpa_gauge);
    }
    if (forecast.unfavourable && forecast.judged()) {
        json["unfavourable"] = {{"weak", json_of(forecast.unfavourable->weak)},
                                {"share_without_weak", forecast.unfavourable->share_without_weak}};
    }
    json["strikes"] = Json::array();
    for (std::size_t i = 0; i < forecast.strikes.size(); ++i) {
        json["strikes"].push_back(json_of(told.open.show, forecast.strikes[i], unfavourable(forecast, i)));
    }
    json["hours"] = json_of_hours(forecast.hours);
    json["first_night"] = Json::array();
    for (const CurvePoint& point : forecast.receiver_kpa_gauge.points) {
        json["first_night"].push_back({{"time_s", point.time_s}, {"receiver_kpa_gauge", point.value}});
    }
    if (!told.answers.empty()) {
        json["answers"] = json_of_answers(told.answers);
    }
    json["missing"] = Json::array();
    for (const BlankField& field : forecast.missing) {
        json["missing"].push_back({{"field", field.key}, {"label", field.label}});
    }
    json["not_simulated"] = Json::array();
    for (const ActuatorId id : forecast.not_simulated) {
        json["not_simulated"].push_back(name_of(told.open.show, id));
    }
    json["assumptions"] = Json::array();
    for (const Assumption& each : told.assumptions) {
        json["assumptions"].push_back(
            {{"field", each.field.key}, {"label", each.field.label}, {"taken", each.taken}});
    }
    return json_text(json);
}

std::string print_count(double count) {
    return fmt::format("{:.0f}", count);
}

std::string print_share(double share) {
    return fmt::format("{:.0f} %", 100.0 * share);
}

/// What was taken for blank figures, fields that are alike on one line.
void add_assumptions(const Told& told, TextGrid& head) {
    std::vector<const Assumption*> left;
    for (const Assumption& each : told.assumptions) {
        left.push_back(&each);
    }
    while (!left.empty()) {
        const Assumption& first = *left.front();
        std::string label;
        std::erase_if(left, [&](const Assumption* each) {
            const bool alike = each->field.key == first.field.key && each->taken == first.taken;
            if (alike) {
                const bool again = !label.empty() && each->field.actuator;
                label += label.empty() ? each->field.label
                         : again ? fmt::format(", \"{}\"", name_of(told.open.show, *each->field.actuator))
                                 : ", " + each->field.label;
            }
            return alike;
        });
        head.add({fmt::format("  taken: {}: {}", label, first.taken)});
    }
}

std::string head_of(const Told& told) {
    const NightTerms& terms = told.forecast.terms;
    std::string groups = "groups by the hour";
    if (!terms.arrivals_s.empty()) {
        groups = fmt::format("{} groups as listed", terms.arrivals_s.size());
    } else if (terms.groups_by_hour.size() == 1) {
        groups = fmt::format("{:g} groups an hour at random", terms.groups_by_hour.front());
    }
    TextGrid head({TextGrid::Align::left});
    head.add({fmt::format("{}: {}, {}", told.open.show.name, fmt::format("{:g} h", terms.hours), groups)});
    const std::size_t played = told.forecast.nights.size();
    head.add({fmt::format("{} nights, seed {} ({}), each opened with the receiver at cut-out", played,
                          terms.seed, SplitMix64::name)});
    for (const BlankField& field : told.forecast.missing) {
        head.add({"  not checked: no " + field.label});
    }
    for (const ActuatorId id : told.forecast.not_simulated) {
        head.add({fmt::format("  not checked: the strikes of \"{}\", which lacks figures",
                              name_of(told.open.show, id))});
    }
    add_assumptions(told, head);
    return head.text();
}

std::string verdict_of(const NightForecast& forecast) {
    if (!forecast.judged()) {
        return "\nNot checked: whether the nights pass without a weak scare.\n";
    }
    std::string verdict =
        fmt::format("\n{} of the nights pass without a weak scare", print_share(forecast.share_without_weak));
    if (forecast.unfavourable) {
        verdict += fmt::format(", {} with unfavourable inputs",
                               print_share(forecast.unfavourable->share_without_weak));
    }
    const bool partly = !forecast.not_simulated.empty() || !forecast.missing.empty();
    return verdict + (partly ? ", as far as it was checked.\n" : ".\n");
}

std::string nights_of(const Told& told) {
    using enum TextGrid::Align;
    const NightForecast& forecast = told.forecast;
    const AirPlant& plant = told.open.show.rig.air_plant;
    TextGrid grid({left, right, right, right, left});
    const auto add = [&](std::string label, const Spread& spread, auto print, std::string remark = {}) {
        grid.add(
            {std::move(label), print(spread.p5), print(spread.p50), print(spread.p95), std::move(remark)});
    };
    grid.add({"", "5 %", "50 %", "95 % of nights have at most"});
    add("groups", forecast.groups, print_count);
    add("scares delivered", forecast.delivered, print_count);
    add("refused in a run or lockout", forecast.refused, print_count);
    const std::string late = fmt::format("a strike over {:.0f} ms late", forecast.terms.weak_s * 1e3);
    if (!forecast.judged()) {
        grid.add({"weak scares", "", "", "", "not checked: no strike is simulated"});
    } else {
        add("weak scares", forecast.weak, print_count, late);
    }
    if (forecast.judged() && forecast.unfavourable) {
        add("with unfavourable inputs", forecast.unfavourable->weak, print_count,
            "the far end of their bands");
    }
    if (forecast.lowest_kpa_gauge) {
        add("lowest in the receiver", *forecast.lowest_kpa_gauge,
            [&](double kpa) { return print_rounded(Q::gauge_pressure, kpa, told.units, 3); });
        add("compressor runs", forecast.duty, print_share);
        add("in its worst 10 minutes", forecast.duty_of_10_min, print_share,
            plant.duty_percent ? fmt::format("limit {:g} %", *plant.duty_percent) : "limit not given");
        add("starts in its worst hour", forecast.starts_in_an_hour, print_count,
            plant.starts_per_h ? fmt::format("limit {:g}", *plant.starts_per_h) : "limit not given");
    }
    return grid.text() + verdict_of(forecast);
}

std::string strikes_of(const Told& told) {
    using enum TextGrid::Align;
    const auto ms = [](double s) { return fmt::format("{:.1f} ms", s * 1e3); };
    TextGrid grid({left, right, left, left, right, right, right, right, right, right});
    const bool banded = told.forecast.unfavourable.has_value();
    grid.add({"strike after", "at", "", "", "usual", "5 %", "50 %", "95 %", "missed",
              banded ? "95 %, unfavourable" : ""});
    for (std::size_t i = 0; i < told.forecast.strikes.size(); ++i) {
        const NightStrike& strike = told.forecast.strikes[i];
        std::vector<std::string> line{name_of(told.open.show, strike.sequence), print_time(strike.at),
                                      name_of(told.open.show, strike.actuator), std::string(word(strike.way)),
                                      strike.usual_s     ? ms(*strike.usual_s)
                                      : strike.cut_short ? "cut short"
                                                         : "never"};
        for (const double Spread::*part : {&Spread::p5, &Spread::p50, &Spread::p95}) {
            line.push_back(strike.strike_s ? ms(*strike.strike_s.*part) : "");
        }
        line.push_back(fmt::format("{} of {}", strike.missed, strike.strokes));
        const std::optional<Spread> worse = unfavourable(told.forecast, i);
        line.push_back(worse ? ms(worse->p95) : "");
        grid.add(std::move(line));
    }
    return told.forecast.strikes.empty() ? std::string() : "\n" + grid.text();
}

std::string hours_of(const Told& told) {
    using enum TextGrid::Align;
    TextGrid grid({right, right, right, right});
    grid.add({"hour", "delivered", "refused", "weak"});
    for (std::size_t i = 0; i < told.forecast.hours.size(); ++i) {
        const NightHour& hour = told.forecast.hours[i];
        grid.add({std::to_string(i + 1), fmt::format("{:.1f}", hour.delivered),
                  fmt::format("{:.1f}", hour.refused), fmt::format("{:.1f}", hour.weak)});
    }
    return "\n" + grid.text();
}

std::string print_answer(const NightAnswer& answer, UnitSystem units) {
    if (!answer.value) {
        return "none";
    }
    return answer.question == NightQuestion::most_groups
               ? print_count(*answer.value)
               : print_rounded(quantity_of(answer.question), *answer.value, units, 3);
}

std::string answers_of(const Told& told) {
    using enum TextGrid::Align;
    TextGrid grid({left, right, left});
    for (const NightAnswer& answer : told.answers) {
        grid.add({std::string(label_of(answer.question)), print_answer(answer, told.units), answer.reason});
    }
    return told.answers.empty() ? std::string()
                                : fmt::format(
                                      "\nFor {} of nights without a weak scare, the compressor within its "
                                      "duty and starts where given\n",
                                      print_share(nights_served)) +
                                      grid.text();
}

std::string text_of(const Told& told) {
    return head_of(told) + "\n" + nights_of(told) + strikes_of(told) + hours_of(told) + answers_of(told) +
           "\nA forecast of air and time, and no more: keep people out of the figures' reach by guards and "
           "by\n"
           "stops that work without it, as the local code and whoever is licensed for it ask.\n";
}

NightTerms terms_of(const NightVerbOptions& options, const Show& show) {
    NightTerms terms = night_terms(show.night);
    terms.hours = options.hours.value_or(terms.hours);
    terms.runs = options.runs.value_or(terms.runs);
    terms.seed = options.seed.value_or(terms.seed);
    if (options.groups) {
        terms.groups_by_hour = {*options.groups};
        terms.arrivals_s.clear();
    }
    return terms;
}

/// What was taken for blanks, the terms given on the command line left out.
std::vector<Assumption> assumptions_of(const NightVerbOptions& options, const Show& show,
                                       const NightForecast& forecast) {
    std::vector<Assumption> taken = night_assumptions(show);
    std::erase_if(taken, [&](const Assumption& each) {
        const std::string& key = each.field.key;
        return (key == "night.hours" && options.hours) || (key == "night.groups_per_h" && options.groups) ||
               (key == "night.runs" && options.runs) || (key == "night.seed" && options.seed);
    });
    taken.insert(taken.end(), forecast.assumptions.begin(), forecast.assumptions.end());
    return taken;
}

/// What is said of a forecast, or its answers, that Ctrl-C cut short.
void note_stop(const NightForecast& forecast, bool answered, Outcome& outcome) {
    if (!forecast.complete) {
        outcome.messages.push_back(
            fmt::format("stopped after {} of {} nights: the figures are theirs alone, and no band is told",
                        forecast.nights.size(), forecast.terms.runs));
    }
    if (!answered) {
        outcome.messages.push_back("stopped before all questions were answered");
    }
    outcome.code = forecast.complete && answered ? outcome.code : ExitCode::stopped;
}

Result<std::vector<NightAnswer>> answer(const NightVerbOptions& options, const OpenShow& open,
                                        std::span<const NightSequence> sequences, const NightTerms& terms) {
    LongWork work("answers");
    return night_answers(open.show, sequences, terms, {}, options.units, work.stop(), work.progress());
}

}  // namespace

Result<Outcome> run(const NightVerbOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const NightTerms terms = terms_of(options, open->show);
    const std::vector<NightSequence> sequences = night_sequences(open->show, open->sequences);
    NightWork nights;
    nights.unfavourable = true;
    const Result<NightForecast> forecast = [&] {
        LongWork work("nights");
        return forecast_night(open->show, sequences, terms, nights, work.stop(), work.progress());
    }();
    if (!forecast) {
        return tl::unexpected(forecast.error());
    }
    if (forecast->nights.empty()) {
        return fail("stopped before a night was played", options.show,
                    "Let it run, or ask for shorter nights");
    }
    std::vector<NightAnswer> answers;
    bool answered = true;
    if (options.answers && forecast->complete) {
        Result<std::vector<NightAnswer>> found = answer(options, *open, sequences, terms);
        if (!found) {
            return tl::unexpected(found.error());
        }
        answers = std::move(*found);
        answered = answers.size() == night_questions;
    }
    const std::vector<Assumption> assumptions = assumptions_of(options, open->show, *forecast);
    const Told told{*open, *forecast, answers, assumptions, options.units};
    Outcome outcome;
    outcome.text = options.json ? json_of(told) : text_of(told);
    note_stop(*forecast, answered, outcome);
    return outcome;
}

}  // namespace gasp
