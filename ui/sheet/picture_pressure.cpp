// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/rounded.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

/// Pressures to places in a lane.
struct PressureAxis {
    double low_kpa = 0.0;
    double high_kpa = 1.0;
    QRectF box;

    [[nodiscard]] double y_of(double kpa) const {
        return box.bottom() - (kpa - low_kpa) / (high_kpa - low_kpa) * box.height();
    }
};

PressureAxis axis_of(const PicturePage& page, const QRectF& lane) {
    const AirPlant& plant = page.content.show.rig.air_plant;
    const AirRun& air = *page.content.air.run;
    const double top = std::max(plant.cut_out_kpa_gauge.value_or(0.0),
                                std::ranges::max(air.receiver_kpa.points, {}, &CurvePoint::value).value);
    const double bottom = std::min(plant.cut_in_kpa_gauge.value_or(top), air.lowest_receiver_kpa);
    const double air_around = std::max((top - bottom) * 0.25, 10.0);
    return {bottom - air_around, top + air_around, lane.adjusted(0, 4, 0, -5)};
}

QString pressure_text(const PicturePage& page, double kpa) {
    return QString::fromStdString(print_rounded(Quantity::gauge_pressure, kpa, page.style.units));
}

/// A dotted level of the pressure switch, named at the right edge.
void paint_level(QPainter& painter, const PicturePage& page, const PressureAxis& axis, const Figure& level,
                 const QString& name) {
    if (!level) {
        return;
    }
    const double y = axis.y_of(*level);
    painter.setPen(QPen(page.colours.rule_strong, 1, Qt::DotLine));
    painter.drawLine(QPointF(page.left(), y), QPointF(page.right(), y));
    const QString text = name + ' ' + pressure_text(page, *level);
    const QFont small = font(TypeSize::small);
    const double width = text_width(small, text) + 1;
    draw_text(painter, {page.right() - width - 24, y - 15, width, 14}, {small, page.colours.text_soft}, text);
}

void paint_curve(QPainter& painter, const PicturePage& page, const PressureAxis& axis) {
    QPolygonF line;
    for (const CurvePoint& point : page.content.air.run->receiver_kpa.points) {
        const double x = page.x_of(Micros{std::llround(point.time_s * 1e6)});
        if (x >= page.left() && x <= page.right()) {
            line << QPointF(x, axis.y_of(point.value));
        }
    }
    if (line.isEmpty()) {
        return;
    }
    QPolygonF ground = line;
    ground << QPointF(line.back().x(), axis.box.bottom()) << QPointF(line.front().x(), axis.box.bottom());
    QColor tint = page.colours.pressure;
    tint.setAlpha(36);
    painter.setPen(Qt::NoPen);
    painter.setBrush(tint);
    painter.drawPolygon(ground);
    painter.setPen(QPen(page.colours.pressure, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line);
}

void paint_lowest(QPainter& painter, const PicturePage& page, const PressureAxis& axis) {
    const AirRun& air = *page.content.air.run;
    const QPointF place(page.x_of(air.lowest_at), axis.y_of(air.lowest_receiver_kpa));
    if (air.strokes.empty() || place.x() < page.left() || place.x() > page.right()) {
        return;
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(page.colours.pressure);
    painter.drawEllipse(place, 3.5, 3.5);
    const QFont small = font(TypeSize::small, true);
    const QString text = QStringLiteral("lowest ") + pressure_text(page, air.lowest_receiver_kpa);
    const double width = text_width(small, text) + 1;
    const double x = place.x() + 8 + width < page.right() - 140 ? place.x() + 8 : place.x() - 8 - width;
    draw_text(painter, {x, std::min(place.y() + 1, axis.box.bottom() - 13), width, 14},
              {small, page.colours.text}, text);
}

}  // namespace

void paint_pressure_lane(QPainter& painter, const PicturePage& page, const QRectF& lane) {
    if (!page.content.air.run || !page.content.air.receiver_missing.empty()) {
        QString missing;
        const SequenceAir& air = page.content.air;
        for (const BlankField& field : air.receiver_missing.empty() ? air.missing : air.receiver_missing) {
            missing += (missing.isEmpty() ? "no " : ", no ") + shown(field.label);
        }
        draw_text(painter, lane.adjusted(16, 0, -16, 0), {font(TypeSize::small), page.colours.text_soft},
                  QStringLiteral("not checked: ") + missing);
        return;
    }
    const PressureAxis axis = axis_of(page, lane);
    const AirPlant& plant = page.content.show.rig.air_plant;
    paint_level(painter, page, axis, plant.cut_out_kpa_gauge, QStringLiteral("cut-out"));
    paint_level(painter, page, axis, plant.cut_in_kpa_gauge, QStringLiteral("cut-in"));
    paint_curve(painter, page, axis);
    paint_lowest(painter, page, axis);
}

}  // namespace gasp
