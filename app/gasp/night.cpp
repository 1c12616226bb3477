// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/air/night/night_answers.hpp"
#include "core/schedule/night_sequences.hpp"
#include "core/units/rounded.hpp"

#include <fmt/format.h>

#include <cmath>

namespace gasp {

namespace {

using Q = Quantity;

/// A night's forecast with what it is told with.
struct Told {
    const OpenShow& open;
    const NightForecast& forecast;
    const std::vector<NightAnswer>& answers;
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

Json json_of(const Show& show, const NightStrike& strike) {
    Json json{{"sequence", name_of(show, strike.sequence)},
              {"actuator", name_of(show, strike.actuator)},
              {"way", word(strike.way)},
              {"at_us", strike.at.count()},
              {"strokes", strike.strokes},
              {"missed", strike.missed}};
    if (strike.usual_s) {
        json["usual_s"] = *strike.usual_s;
    }
    if (strike.strike_s) {
        json["strike_s"] = json_of(*strike.strike_s);
    }
    return json;
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
              {"share_without_weak", forecast.share_without_weak},
              {"duty", json_of(forecast.duty)},
              {"duty_of_10_min", json_of(forecast.duty_of_10_min)},
              {"starts_in_an_hour", json_of(forecast.starts_in_an_hour)}};
    if (forecast.lowest_kpa_gauge) {
        json["lowest_kpa_gauge"] = json_of(*forecast.lowest_kpa_gauge);
    }
    json["strikes"] = Json::array();
    for (const NightStrike& strike : forecast.strikes) {
        json["strikes"].push_back(json_of(told.open.show, strike));
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
    return json_text(json);
}

std::string print_count(double count) {
    return fmt::format("{:.0f}", count);
}

std::string print_share(double share) {
    return fmt::format("{:.0f} %", 100.0 * share);
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
    head.add({fmt::format("{} nights, seed {} ({}), each opened with the receiver at cut-out", terms.runs,
                          terms.seed, SplitMix64::name)});
    for (const BlankField& field : told.forecast.missing) {
        head.add({"  not checked: no " + field.label});
    }
    return head.text();
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
    add("weak scares", forecast.weak, print_count,
        fmt::format("a strike over {:.0f} ms late", forecast.terms.weak_s * 1e3));
    if (forecast.lowest_kpa_gauge) {
        add("lowest in the receiver", *forecast.lowest_kpa_gauge,
            [&](double kpa) { return print_rounded(Q::gauge_pressure, kpa, told.units, 3); });
        add("compressor runs", forecast.duty, print_share);
        add("in its worst 10 minutes", forecast.duty_of_10_min, print_share,
            plant.duty_percent ? fmt::format("limit {:g} %", *plant.duty_percent) : "limit not given");
        add("starts in its worst hour", forecast.starts_in_an_hour, print_count,
            plant.starts_per_h ? fmt::format("limit {:g}", *plant.starts_per_h) : "limit not given");
    }
    return grid.text() + fmt::format("\n{} of the nights pass without a weak scare.\n",
                                     print_share(forecast.share_without_weak));
}

std::string strikes_of(const Told& told) {
    using enum TextGrid::Align;
    const auto ms = [](double s) { return fmt::format("{:.1f} ms", s * 1e3); };
    TextGrid grid({left, right, left, left, right, right, right, right, right});
    grid.add({"strike after", "at", "", "", "usual", "5 %", "50 %", "95 %", "missed"});
    for (const NightStrike& strike : told.forecast.strikes) {
        std::vector<std::string> line{name_of(told.open.show, strike.sequence), print_time(strike.at),
                                      name_of(told.open.show, strike.actuator), std::string(word(strike.way)),
                                      strike.usual_s ? ms(*strike.usual_s) : "never"};
        for (const double Spread::*part : {&Spread::p5, &Spread::p50, &Spread::p95}) {
            line.push_back(strike.strike_s ? ms(*strike.strike_s.*part) : "");
        }
        line.push_back(fmt::format("{} of {}", strike.missed, strike.strokes));
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
    return told.answers.empty()
               ? std::string()
               : fmt::format("\nFor {} of nights without a weak scare\n", print_share(nights_served)) +
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

}  // namespace

Result<Outcome> run(const NightVerbOptions& options) {
    const Result<OpenShow> open = open_show(options);
    if (!open) {
        return tl::unexpected(open.error());
    }
    const NightTerms terms = terms_of(options, open->show);
    const std::vector<NightSequence> sequences = night_sequences(open->show, open->sequences);
    const std::atomic<bool> cancel{false};
    const Result<NightForecast> forecast = forecast_night(open->show, sequences, terms, {}, cancel, {});
    if (!forecast) {
        return tl::unexpected(forecast.error());
    }
    std::vector<NightAnswer> answers;
    if (options.answers) {
        Result<std::vector<NightAnswer>> found =
            night_answers(open->show, sequences, terms, {}, options.units, cancel, {});
        if (!found) {
            return tl::unexpected(found.error());
        }
        answers = std::move(*found);
    }
    const Told told{*open, *forecast, answers, options.units};
    Outcome outcome;
    outcome.text = options.json ? json_of(told) : text_of(told);
    return outcome;
}

}  // namespace gasp
