// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/linkage_plot.hpp"

#include "core/air/model/linkage.hpp"
#include "ui/look/look.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <numbers>
#include <utility>

namespace gasp {
namespace {

constexpr int pieces = 120;
constexpr double point_px = 3.5;

QString text(const std::string& words) {
    return QString::fromStdString(words);
}

}  // namespace

LinkageCurve linkage_curve(const Show& show, ActuatorId id) {
    LinkageCurve curve;
    const Actuator* actuator = find(show, id);
    if (actuator == nullptr || actuator->linkage.points.empty()) {
        return curve;
    }
    curve.measured = actuator->linkage.points;
    const double stroke_mm = actuator->cylinder.stroke_mm.value_or(curve.measured.back().travel_mm);
    Actuator whole = *actuator;
    // The arm's length has no part in its slope.
    whole.linkage.arm_mm = whole.linkage.arm_mm.value_or(1.0);
    const auto mechanism = Mechanism::make(whole, si(Quantity::small_length, stroke_mm));
    if (!mechanism) {
        curve.trouble = text(mechanism.error().what);
        return curve;
    }
    for (int i = 0; i <= pieces; ++i) {
        const double mm = stroke_mm * i / pieces;
        const double slope = mechanism->slope_at(si(Quantity::small_length, mm));
        curve.line.push_back({mm, slope * 180.0 / std::numbers::pi});
    }
    return curve;
}

LinkagePlot::LinkagePlot(QWidget* parent)
    : Plot("Arm's slope over the rod's travel", "Type or paste the measured points.", parent) {}

void LinkagePlot::set(LinkageCurve curve, UnitSystem units) {
    if (curve == curve_ && units == units_) {
        return;
    }
    curve_ = std::move(curve);
    units_ = units;
    most_mm_ = 1.0;
    if (!curve_.measured.empty()) {
        low_deg_ = high_deg_ = curve_.measured.front().arm_deg;
    }
    for (const auto* points : {&curve_.measured, &curve_.line}) {
        for (const LinkagePoint& point : *points) {
            most_mm_ = std::max(most_mm_, point.travel_mm);
            low_deg_ = std::min(low_deg_, point.arm_deg);
            high_deg_ = std::max(high_deg_, point.arm_deg);
        }
    }
    const double margin = std::max((high_deg_ - low_deg_) * 0.06, 0.5);
    low_deg_ -= margin;
    high_deg_ += margin;
    take_figures();
}

QString LinkagePlot::summary() const {
    if (!curve_.trouble.isEmpty()) {
        return "Not simulated: " + curve_.trouble;
    }
    return curve_.measured.empty()
               ? QString()
               : QStringLiteral("%1 points, the curve through them as simulated").arg(curve_.measured.size());
}

int LinkagePlot::places() const {
    return static_cast<int>(curve_.measured.size());
}

QRectF LinkagePlot::place_box(int place) const {
    const LinkagePoint& point = curve_.measured[static_cast<std::size_t>(place)];
    const QPointF at(x_of(shown(point.travel_mm)), y_of(point.arm_deg));
    return {at.x() - 2 * point_px, field().top(), 4 * point_px, field().height()};
}

QString LinkagePlot::reading_of(int place) const {
    const LinkagePoint& point = curve_.measured[static_cast<std::size_t>(place)];
    return QStringLiteral("row %1: rod %2, arm %3")
        .arg(place + 1)
        .arg(text(print_quantity(Quantity::small_length, point.travel_mm, units_)),
             text(print_quantity(Quantity::angle, point.arm_deg, units_)));
}

double LinkagePlot::shown(double mm) const {
    return mm / shown_unit(Quantity::small_length, units_).scale;
}

std::vector<AxisTick> LinkagePlot::across() const {
    const auto name = shown_unit(Quantity::small_length, units_).name;
    return round_ticks(0.0, shown(most_mm_), 5,
                       QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())));
}

std::vector<AxisTick> LinkagePlot::upward() const {
    return round_ticks(low_deg_, high_deg_, 4, "\u00b0");
}

double LinkagePlot::share_across(double value) const {
    return value / shown(most_mm_);
}

double LinkagePlot::share_up(double deg) const {
    return (deg - low_deg_) / (high_deg_ - low_deg_);
}

void LinkagePlot::paint_data(QPainter& painter) {
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    QPolygonF line;
    for (const LinkagePoint& point : curve_.line) {
        line << QPointF(x_of(shown(point.travel_mm)), y_of(point.arm_deg));
    }
    painter.setPen(QPen(look().pressure, 1.5));
    painter.drawPolyline(line);
    painter.setPen(Qt::NoPen);
    painter.setBrush(look().text);
    for (const LinkagePoint& point : curve_.measured) {
        painter.drawEllipse(QPointF(x_of(shown(point.travel_mm)), y_of(point.arm_deg)), point_px, point_px);
    }
    painter.restore();
}

}  // namespace gasp
