// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/forecast_text.hpp"

#include "core/units/rounded.hpp"

#include <QStringList>

#include <algorithm>
#include <cmath>
#include <set>

namespace gasp {
namespace {

constexpr double ms_per_s = 1000.0;

QString whole(double value) {
    return QString::number(value, 'f', 0);
}

QString percent(double share) {
    return QStringLiteral("%1 %").arg(share * 100.0, 0, 'f', 0);
}

template <class Print>
QString range(const Spread& spread, Print print) {
    const QString low = print(spread.p5);
    const QString high = print(spread.p95);
    return low == high ? QString() : QStringLiteral("%1 to %2").arg(low, high);
}

QString joined(const QStringList& parts) {
    QStringList said = parts;
    said.removeAll(QString());
    return said.join("; ");
}

FigureLine counted(const QString& words, const Spread& spread) {
    return {words, whole(spread.p50), range(spread, whole), {}};
}

/// A figure with the most it may be; above that in more than 5 of 100 nights it is a warning.
template <class Print>
FigureLine rated(const QString& words, const Spread& spread, const std::optional<double>& most,
                 const QString& blank, Print print) {
    FigureLine line{words, print(spread.p50), {}, {}};
    const QString rating = most ? "rated " + print(*most) : blank;
    line.beside = joined({range(spread, print), rating});
    if (most && spread.p95 > *most) {
        line.severity = Severity::warn;
    }
    return line;
}

FigureLine lowest_line(const NightForecast& forecast, const AirPlant& plant, UnitSystem units) {
    FigureLine line{"Lowest receiver pressure", "no limit", "the receiver's volume is not given", {}};
    if (!forecast.lowest_kpa_gauge) {
        return line;
    }
    const auto print = [units](double kpa) {
        return QString::fromStdString(print_rounded(Quantity::gauge_pressure, kpa, units));
    };
    const Spread& lowest = *forecast.lowest_kpa_gauge;
    line.figure = print(lowest.p50);
    line.beside = range(lowest, print);
    if (plant.regulator_kpa_gauge && lowest.p5 < *plant.regulator_kpa_gauge) {
        line.severity = Severity::warn;
        line.beside = joined({line.beside, "below the regulator's " + print(*plant.regulator_kpa_gauge)});
    }
    return line;
}

QString words_of(NightQuestion question) {
    switch (question) {
        case NightQuestion::most_groups:
            return "Groups an hour it sustains";
        case NightQuestion::least_receiver:
            return "Smallest receiver";
        case NightQuestion::least_delivery:
            return "Least free-air delivery";
        case NightQuestion::lowest_regulation:
            break;
    }
    return "Lowest regulator setting";
}

QString name_of(const Show& show, const NightStrike& strike, bool with_sequence, bool with_way) {
    const Actuator* actuator = find(show, strike.actuator);
    const Sequence* sequence = find(show, strike.sequence);
    QStringList parts;
    if (with_sequence && sequence != nullptr) {
        parts << QString::fromStdString(sequence->name);
    }
    if (actuator != nullptr) {
        parts << QString::fromStdString(actuator->name);
    }
    QString name = parts.join(", ");
    if (with_way) {
        name += strike.way == Coil::out ? " out" : " back";
    }
    return name;
}

/// How many scares are weak, and what of that was not checked.
FigureLine weak_line(const NightForecast& forecast) {
    if (!forecast.judged()) {
        return {"of them weak", "not checked", "no strike is simulated", {}};
    }
    FigureLine weak = counted("of them weak", forecast.weak);
    weak.beside = joined({weak.beside, percent(forecast.share_without_weak) + " of nights have none"});
    if (forecast.unfavourable) {
        weak.beside = joined(
            {weak.beside, percent(forecast.unfavourable->share_without_weak) + " with unfavourable inputs"});
    }
    if (!forecast.not_simulated.empty()) {
        weak.beside = joined({weak.beside, "not all figures checked"});
    }
    if (forecast.weak.p50 > 0) {
        weak.severity = Severity::warn;
    }
    return weak;
}

}  // namespace

std::vector<FigureLine> forecast_lines(const NightForecast& forecast, const AirPlant& plant,
                                       UnitSystem units) {
    const Figure duty = plant.duty_percent ? Figure(*plant.duty_percent / 100.0) : Figure();
    std::vector<FigureLine> lines{counted("Groups", forecast.groups),
                                  counted("Scares delivered", forecast.delivered)};
    lines.push_back(weak_line(forecast));
    lines.push_back(counted("Refused in a run or lockout", forecast.refused));
    lines.push_back(lowest_line(forecast, plant, units));
    if (forecast.lowest_kpa_gauge) {
        lines.push_back(rated("Compressor runs", forecast.duty, duty, "duty not given", percent));
        lines.push_back(rated("in the worst 10 min", forecast.duty_of_10_min, duty, {}, percent));
        lines.push_back(rated("Starts in the worst hour", forecast.starts_in_an_hour, plant.starts_per_h,
                              "rating not given", whole));
    }
    return lines;
}

PressureNight pressure_night(const NightForecast& forecast, const AirPlant& plant) {
    return {forecast.receiver_kpa_gauge, forecast.terms.hours, plant.cut_in_kpa_gauge,
            plant.cut_out_kpa_gauge, plant.regulator_kpa_gauge};
}

std::vector<StrikeSpread> strike_spreads(const NightForecast& forecast, const Show& show) {
    std::set<SequenceId> sequences;
    bool back = false;
    for (const NightStrike& strike : forecast.strikes) {
        sequences.insert(strike.sequence);
        back = back || strike.way == Coil::back;
    }
    std::vector<StrikeSpread> spreads;
    for (const NightStrike& strike : forecast.strikes) {
        if (!strike.strike_s || !strike.usual_s) {
            continue;
        }
        const auto after = [&strike](double s) { return (s - *strike.usual_s) * ms_per_s; };
        spreads.push_back({name_of(show, strike, sequences.size() > 1, back), after(strike.strike_s->p5),
                           after(strike.strike_s->p50), after(strike.strike_s->p95)});
    }
    return spreads;
}

std::vector<ScareHour> scare_hours(const NightForecast& forecast) {
    std::vector<ScareHour> hours;
    for (const NightHour& hour : forecast.hours) {
        hours.push_back({hour.delivered - hour.weak, hour.weak, hour.refused});
    }
    return hours;
}

std::vector<FigureLine> answer_lines(const std::vector<NightAnswer>& answers, UnitSystem units) {
    std::vector<FigureLine> lines;
    for (const NightAnswer& answer : answers) {
        const Quantity quantity = quantity_of(answer.question);
        QString reason = QString::fromStdString(answer.reason);
        if (!reason.isEmpty()) {
            reason[0] = reason[0].toUpper();
            reason += reason.endsWith('.') ? "" : ".";
        }
        lines.push_back({words_of(answer.question),
                         answer.value ? QString::fromStdString(print_rounded(quantity, *answer.value, units))
                                      : QString("none"),
                         {},
                         answer.value ? std::nullopt : std::optional(Severity::warn),
                         reason});
    }
    return lines;
}

QString forecast_terms(const NightTerms& terms) {
    QStringList parts{QStringLiteral("%1 %2 of %3 h")
                          .arg(terms.runs)
                          .arg(terms.runs == 1 ? "night" : "nights")
                          .arg(terms.hours)};
    if (!terms.arrivals_s.empty()) {
        parts << QStringLiteral("%1 listed arrivals").arg(terms.arrivals_s.size());
    } else if (terms.groups_by_hour.size() == 1) {
        parts << QStringLiteral("%1 groups an hour").arg(terms.groups_by_hour.front());
    } else {
        const auto [least, most] =
            std::minmax_element(terms.groups_by_hour.begin(), terms.groups_by_hour.end());
        parts << QStringLiteral("%1 to %2 groups an hour").arg(*least).arg(*most);
    }
    parts << QStringLiteral("seed %1").arg(terms.seed);
    return parts.join(", ");
}

}  // namespace gasp
