// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/look.hpp"
#include "ui/stage/stage_paint.hpp"

#include <QPainter>
#include <QPainterPath>
#include <QTransform>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace gasp {

namespace {

// The linkage in shares of its own length, along the rod: cylinder, rod at full stroke, figure.
constexpr double cylinder_length = 0.40;
constexpr double cylinder_width = 0.11;
constexpr double stroke = 0.36;
constexpr double figure_length = 0.24;
constexpr double width = 0.36;
constexpr double valve_row = 18.0;
constexpr double name_row = 18.0;

/// Moves the painter so that x runs along the rod from the cylinder's foot, and the whole linkage fills
/// `box`. Gives the length of one unit.
double enter_linkage(QPainter& painter, const QRectF& box, double angle_deg) {
    const double angle = angle_deg * std::numbers::pi / 180.0;
    const double c = std::abs(std::cos(angle));
    const double s = std::abs(std::sin(angle));
    const double unit = std::min(box.width() / (c + width * s), box.height() / (s + width * c));
    painter.translate(box.center());
    painter.rotate(-angle_deg);
    painter.translate(-unit / 2.0, 0.0);
    return unit;
}

QPolygonF spring(double from, double to, double height) {
    QPolygonF line;
    constexpr int bends = 7;
    for (int i = 0; i <= bends; ++i) {
        const double side = i == 0 || i == bends ? 0.0 : (i % 2 == 0 ? height : -height);
        line << QPointF(from + (to - from) * i / bends, side);
    }
    return line;
}

void paint_cylinder(QPainter& painter, double unit, const StageActuator& actuator) {
    const Palette& p = look();
    const double half = cylinder_width * unit / 2.0;
    const double end = cylinder_length * unit;
    const double piston = (0.02 + actuator.share * stroke) * unit;
    const QRectF body(0.0, -half, end, 2.0 * half);
    painter.setPen(Qt::NoPen);
    painter.setBrush(p.raised);
    painter.drawRect(body);
    QColor air = p.pressure;
    air.setAlpha(150);
    if (actuator.sent_out) {
        painter.fillRect(QRectF(0.0, -half, piston, 2.0 * half), air);
    } else if (actuator.action == CylinderAction::double_acting) {
        painter.fillRect(QRectF(piston, -half, end - piston, 2.0 * half), air);
    }
    painter.setBrush(Qt::NoBrush);
    if (actuator.action == CylinderAction::single_spring_return) {
        painter.setPen(QPen(p.text_soft, 1.0));
        painter.drawPolyline(spring(piston + 2.0, end - 1.0, half * 0.7));
    }
    painter.setPen(QPen(p.text, 1.2));
    painter.drawRect(body);
    const double rod_end = (cylinder_length + actuator.share * stroke) * unit;
    painter.setPen(QPen(p.text, std::max(1.6, 0.022 * unit), Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(QPointF(piston, 0.0), QPointF(rod_end, 0.0));
    painter.setPen(QPen(p.text, std::max(2.4, 0.03 * unit), Qt::SolidLine, Qt::FlatCap));
    painter.drawLine(QPointF(piston, -half + 1.5), QPointF(piston, half - 1.5));
    // The foot it stands on.
    painter.setPen(QPen(p.rule_strong, 1.2));
    painter.drawLine(QPointF(0.0, -half * 2.0), QPointF(0.0, half * 2.0));
}

/// Head, trunk and two arms reaching along the rod, on the plate at the rod's end; 1 long.
QPainterPath make_figure() {
    QPainterPath shape;
    shape.setFillRule(Qt::WindingFill);
    shape.addRect(QRectF(0.0, -0.40, 0.08, 0.80));
    shape.addRoundedRect(QRectF(0.08, -0.22, 0.44, 0.44), 0.12, 0.12);
    shape.addRoundedRect(QRectF(0.36, -0.46, 0.46, 0.12), 0.06, 0.06);
    shape.addRoundedRect(QRectF(0.36, 0.34, 0.46, 0.12), 0.06, 0.06);
    shape.addRect(QRectF(0.36, -0.42, 0.12, 0.84));
    shape.addEllipse(QPointF(0.76, 0.0), 0.21, 0.21);
    return QTransform::fromScale(0.01, 0.01).map(QTransform::fromScale(100.0, 100.0).map(shape).simplified());
}

void paint_figure(QPainter& painter, double unit, const StageActuator& actuator) {
    static const QPainterPath shape = make_figure();
    const Palette& p = look();
    painter.save();
    painter.translate((cylinder_length + actuator.share * stroke) * unit, 0.0);
    painter.scale(figure_length * unit, figure_length * unit);
    if (actuator.stated) {
        painter.fillPath(shape, p.text);
    } else {
        painter.fillPath(shape, p.canvas);
        QPen pen(actuator.jumped ? p.warn_text : p.text_soft, 1.3, Qt::DashLine);
        pen.setCosmetic(true);
        painter.setPen(pen);
        painter.drawPath(shape);
    }
    painter.restore();
}

/// A rule beside the rod with its ends and middle, and a pointer at the travel.
void paint_travel_scale(QPainter& painter, double unit, const StageActuator& actuator) {
    const Palette& p = look();
    const double side = width * unit / 2.0;
    const double from = cylinder_length * unit;
    const double length = stroke * unit;
    painter.setPen(QPen(p.rule_strong, 1.0));
    painter.drawLine(QPointF(from, side), QPointF(from + length, side));
    for (const double share : {0.0, 0.5, 1.0}) {
        const double tick = share == 0.5 ? 2.5 : 5.0;
        painter.drawLine(QPointF(from + share * length, side - tick), QPointF(from + share * length, side));
    }
    const double at = from + actuator.share * length;
    painter.setPen(Qt::NoPen);
    painter.setBrush(actuator.jumped ? p.warn_text : p.brass);
    painter.drawPolygon(
        QPolygonF{QPointF(at, side - 1.0), QPointF(at - 3.5, side - 8.0), QPointF(at + 3.5, side - 8.0)});
    if (actuator.jumped) {
        painter.setPen(QPen(p.warn_text, 1.4, Qt::DotLine));
        painter.drawLine(QPointF(from, side), QPointF(from + length, side));
    }
}

void paint_coil(QPainter& painter, const QRectF& box, bool on) {
    const Palette& p = look();
    painter.setPen(QPen(p.text, 1.0));
    painter.setBrush(on ? QBrush(p.valve) : Qt::NoBrush);
    painter.drawRect(box);
    painter.setPen(QPen(on ? p.on_valve : p.text, 1.0));
    painter.drawLine(box.bottomLeft(), box.topRight());
}

void paint_position(QPainter& painter, const QRectF& box, bool active, bool out) {
    const Palette& p = look();
    painter.setPen(QPen(p.text, 1.0));
    painter.setBrush(active ? QBrush(p.valve) : Qt::NoBrush);
    painter.drawRect(box);
    painter.setPen(QPen(active ? p.on_valve : p.text_soft, 1.2));
    const double tip = out ? box.top() + 3.0 : box.bottom() - 3.0;
    const double tail = out ? box.bottom() - 3.0 : box.top() + 3.0;
    const double x = box.center().x();
    const double barb = out ? 3.0 : -3.0;
    painter.drawLine(QPointF(x, tail), QPointF(x, tip));
    painter.drawPolyline(
        QPolygonF{QPointF(x - 2.5, tip + barb), QPointF(x, tip), QPointF(x + 2.5, tip + barb)});
}

/// The valve as in a circuit diagram: a box for each position, the one it stands in filled, between its coils
/// or its coil and its spring; then its way in words.
void paint_valve(QPainter& painter, const QRectF& row, const StageActuator& actuator) {
    const Palette& p = look();
    painter.setRenderHint(QPainter::Antialiasing, false);
    const double side = 14.0;
    const double top = std::floor(row.center().y() - side / 2.0);
    double x = std::floor(row.left()) + 1.0;
    paint_coil(painter, QRectF(x, top + 3.0, 9.0, side - 6.0), actuator.coil_out_on);
    x += 9.0;
    paint_position(painter, QRectF(x, top, side, side), actuator.sent_out, true);
    paint_position(painter, QRectF(x + side, top, side, side), !actuator.sent_out, false);
    x += 2.0 * side;
    if (actuator.valve == ValveKind::five_two_two_coils) {
        paint_coil(painter, QRectF(x, top + 3.0, 9.0, side - 6.0), actuator.coil_back_on);
    } else {
        painter.setPen(QPen(p.text, 1.0));
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.translate(x, top + side / 2.0);
        painter.drawPolyline(spring(0.0, 10.0, 3.0));
        painter.restore();
    }
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setFont(font(TypeSize::small));
    painter.setPen(actuator.jumped ? p.warn_text : p.text_soft);
    const QString words = actuator.jumped ? "jumps" : actuator.sent_out ? "out" : "back";
    const QRectF rest(x + 16.0, row.top(), row.right() - x - 16.0, row.height());
    paint_text(painter, rest, Qt::AlignLeft | Qt::AlignVCenter, words);
}

}  // namespace

void paint_actuator(QPainter& painter, const QRectF& box, const StageActuator& actuator) {
    const Palette& p = look();
    painter.save();
    painter.setClipRect(box);
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF head(box.left(), box.top(), box.width(), name_row);
    painter.setFont(font(TypeSize::small, true));
    painter.setPen(p.text);
    paint_text(painter, head.adjusted(0.0, 0.0, -40.0, 0.0), Qt::AlignLeft | Qt::AlignVCenter,
               QString::fromStdString(actuator.name));
    painter.setFont(font(TypeSize::small));
    const auto percent = static_cast<int>(std::lround(actuator.share * 100.0));
    paint_text(painter, head, Qt::AlignRight | Qt::AlignVCenter, QString("%1 %").arg(percent));

    const QRectF valve(box.left(), box.bottom() - valve_row, box.width(), valve_row);
    QRectF room = box.adjusted(4.0, name_row + 2.0, -4.0, -valve_row - 4.0);
    if (!actuator.stated) {
        room.setBottom(room.bottom() - name_row);
        painter.setPen(p.warn_text);
        paint_text(painter, valve.translated(0.0, -name_row), Qt::AlignLeft | Qt::AlignVCenter,
                   "no stroke times");
    }
    painter.save();
    const double unit = enter_linkage(painter, room, actuator.angle_deg.value_or(90.0));
    paint_travel_scale(painter, unit, actuator);
    paint_cylinder(painter, unit, actuator);
    paint_figure(painter, unit, actuator);
    painter.restore();

    paint_valve(painter, valve, actuator);
    painter.restore();
}

}  // namespace gasp
