// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/sketch.hpp"
#include "ui/sheet/pack/pack_parts.hpp"
#include "ui/sheet/pack/pack_words.hpp"

#include <QPainter>

#include <algorithm>
#include <vector>

namespace gasp {

namespace {

QString whole(double value) {
    return QString::number(value, 'f', 0);
}

QString percent(double share) {
    return QStringLiteral("%1 %").arg(100.0 * share, 0, 'f', 0);
}

template <class Print>
PackRow spread_row(const QString& what, const Spread& spread, const QString& limit, Print print) {
    return {what, print(spread.p50), print(spread.p5), print(spread.p95), limit};
}

QString terms_of(const NightTerms& terms, std::size_t played) {
    QString groups = QStringLiteral("%1 groups an hour").arg(terms.groups_by_hour.front(), 0, 'g', 4);
    if (!terms.arrivals_s.empty()) {
        groups = QStringLiteral("groups as listed");
    } else if (terms.groups_by_hour.size() > 1) {
        groups = QStringLiteral("groups an hour as planned for each hour");
    }
    return QStringLiteral(
               "%1 nights of %2 h, %3, seed %4. A few nights show the drift, not the rare night: the "
               "forecast of editor and command line plays as many as are wanted.")
        .arg(played)
        .arg(terms.hours, 0, 'g', 4)
        .arg(groups)
        .arg(terms.seed);
}

void add_figures(PackFlow& flow, const PackContent& content) {
    const NightForecast& night = *content.night;
    const AirPlant& plant = content.show.rig.air_plant;
    const auto kpa = [&](double value) {
        return rounded_text(Quantity::gauge_pressure, value, content.units);
    };
    std::vector<PackRow> rows;
    rows.push_back(spread_row("Groups", night.groups, {}, whole));
    rows.push_back(spread_row("Scares delivered", night.delivered, {}, whole));
    rows.push_back(spread_row("Refused in a run or lockout", night.refused, {}, whole));
    if (night.judged()) {
        rows.push_back(spread_row("Weak scares", night.weak, {}, whole));
    } else {
        rows.push_back({"Weak scares", PackCell("not checked: no strike is simulated")});
    }
    if (night.lowest_kpa_gauge) {
        rows.push_back(spread_row(
            "Lowest receiver pressure", *night.lowest_kpa_gauge,
            "regulator " + figure_text(Quantity::gauge_pressure, plant.regulator_kpa_gauge, content.units),
            kpa));
        rows.push_back(spread_row(
            "Compressor runs", night.duty,
            plant.duty_percent ? "rated " + percent(*plant.duty_percent / 100) : QString(), percent));
        rows.push_back(spread_row("Compressor runs, worst 10 min", night.duty_of_10_min, {}, percent));
        rows.push_back(spread_row("Starts in the worst hour", night.starts_in_an_hour,
                                  plant.starts_per_h ? "rated " + whole(*plant.starts_per_h) : QString(),
                                  whole));
    } else {
        rows.push_back({"Receiver and compressor", PackCell("not checked: no receiver")});
    }
    for (PackRow& row : rows) {
        row.resize(5);
    }
    flow.table({{"In a night", 0, 3, false, true},
                {"Middle", 0, 1.4, true},
                {"1 of 20 below", 0, 1.4, true},
                {"1 of 20 above", 0, 1.4, true},
                {"Against", 0, 2}},
               rows);
}

void add_strikes(PackFlow& flow, const PackContent& content) {
    std::vector<PackRow> rows;
    const auto ms = [](double seconds) { return QStringLiteral("%1 ms").arg(seconds * 1e3, 0, 'f', 0); };
    for (const NightStrike& strike : content.night->strikes) {
        const Sequence* sequence = find(content.show, strike.sequence);
        const Actuator* actuator = find(content.show, strike.actuator);
        if (sequence == nullptr || actuator == nullptr || !strike.strike_s) {
            continue;
        }
        rows.push_back({text_of(actuator->name) + (strike.way == Coil::out ? " out" : " back"),
                        text_of(sequence->name) + ' ' + time_text(strike.at),
                        strike.usual_s ? ms(*strike.usual_s) : QString(), ms(strike.strike_s->p50),
                        ms(strike.strike_s->p95), QString::number(strike.missed)});
    }
    if (!rows.empty()) {
        flow.heading(QStringLiteral("Lead of each strike over the nights"));
        flow.table({{"Strike", 0, 3, false, true},
                    {"Valve at", 0, 3},
                    {"By itself", 150, 0, true},
                    {"Middle", 150, 0, true},
                    {"1 of 20 above", 190, 0, true},
                    {"Missed", 130, 0, true}},
                   rows);
    }
}

/// The receiver over the first night.
void add_curve(PackFlow& flow, const PackContent& content) {
    const NightForecast& night = *content.night;
    if (night.receiver_kpa_gauge.points.size() < 2) {
        return;
    }
    flow.heading(QStringLiteral("Receiver over the first of these nights"));
    constexpr double height = 520.0;
    flow.drawing(height, [&night, units = content.units](QPainter& painter, const QRectF& box) {
        constexpr double side = 170.0;
        const auto& points = night.receiver_kpa_gauge.points;
        const auto [low, high] = std::ranges::minmax(points, {}, &CurvePoint::value);
        const double span = std::max(high.value - low.value, 1.0);
        const QRectF plot = box.adjusted(side, 20, 0, -60);
        const double seconds = night.terms.hours * 3600.0;
        Sketch sketch(painter);
        sketch.line(plot.bottomLeft(), plot.bottomRight());
        sketch.line(plot.topLeft(), plot.bottomLeft());
        const bool level = high.value - low.value < 1.0;
        for (const double value : level ? std::vector{low.value} : std::vector{low.value, high.value}) {
            const double y = plot.bottom() - (value - low.value) / span * plot.height();
            sketch.line({plot.left() - 12, y}, {plot.left(), y});
            sketch.words({plot.left() - 20, y}, Sketch::Align::right,
                         rounded_text(Quantity::gauge_pressure, value, units), side);
        }
        const int step = std::max(1, static_cast<int>(night.terms.hours / 12));
        for (int hour = 0; hour <= static_cast<int>(night.terms.hours); hour += step) {
            const double x = plot.left() + hour / night.terms.hours * plot.width();
            sketch.line({x, plot.bottom()}, {x, plot.bottom() + 12});
            sketch.words({x, plot.bottom() + 34}, Sketch::Align::centre, QStringLiteral("%1 h").arg(hour),
                         100);
        }
        // Of the points that fall on one place only the lowest and the highest are seen.
        QPolygonF line;
        double column = -1.0;
        for (const CurvePoint& point : points) {
            const double x = plot.left() + std::min(point.time_s / seconds, 1.0) * plot.width();
            const double y = plot.bottom() - (point.value - low.value) / span * plot.height();
            if (x - column >= 2.0) {
                line << QPointF(x, y);
                column = x;
            } else if (!line.isEmpty()) {
                line.back().setY(std::max(line.back().y(), y));
            }
        }
        sketch.path(line);
    });
}

}  // namespace

void add_night(PackFlow& flow, const PackSource& source) {
    const PackContent& content = source.content;
    flow.section(QStringLiteral("The night's forecast"));
    flow.heading(QStringLiteral("The night's forecast"));
    if (!content.night) {
        flow.paragraph(QString::fromStdString(content.no_night));
        return;
    }
    flow.paragraph(terms_of(content.night->terms, content.night->nights.size()));
    add_figures(flow, content);
    add_strikes(flow, content);
    add_curve(flow, content);
    QStringList taken;
    for (const Assumption& each : content.night->assumptions) {
        taken << text_of(each.field.label) + ": " + text_of(each.taken);
    }
    for (const BlankField& blank : content.night->missing) {
        taken << QStringLiteral("not checked for want of the %1").arg(text_of(blank.label));
    }
    taken.removeDuplicates();
    if (!taken.isEmpty()) {
        flow.heading(QStringLiteral("Taken where a figure is blank"));
        flow.paragraph(taken.join("; ") + '.', {PrintSize::small, false, true});
    }
}

}  // namespace gasp
