// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/signs.hpp"

#include "ui/look/look.hpp"
#include "ui/look/painted_icon.hpp"

#include <QPainter>
#include <QPainterPath>

#include <array>
#include <cmath>
#include <numbers>

namespace gasp {

namespace {

void paint_rays(QPainter& painter) {
    painter.drawEllipse(QPointF(8, 8), 2.4, 2.4);
    for (int i = 0; i < 8; ++i) {
        const double angle = i * std::numbers::pi / 4;
        const QPointF way(std::cos(angle), std::sin(angle));
        painter.drawLine(QPointF(8, 8) + way * 4.6, QPointF(8, 8) + way * 7.0);
    }
}

void paint_travel(QPainter& painter) {
    QPainterPath path(QPointF(1.5, 12.5));
    path.lineTo(4, 12.5);
    path.lineTo(7, 3.5);
    path.lineTo(11, 3.5);
    path.lineTo(14.5, 12.5);
    painter.drawPath(path);
}

void paint_arc(QPainter& painter) {
    painter.drawArc(QRectF(2.5, 2.5, 11, 11), -40 * 16, 270 * 16);
    painter.drawLine(QPointF(8, 8), QPointF(12.2, 11.5));
}

void paint_hinge(QPainter& painter) {
    painter.drawLine(QPointF(3.5, 8), QPointF(14, 3.5));
    painter.drawLine(QPointF(3.5, 8), QPointF(14, 12.5));
    painter.setBrush(painter.pen().color());
    painter.drawEllipse(QPointF(3.5, 8), 1.6, 1.6);
}

void paint_dot(QPainter& painter) {
    painter.setBrush(painter.pen().color());
    painter.drawEllipse(QPointF(8, 8), 3.2, 3.2);
}

QPolygonF octagon() {
    QPolygonF shape;
    for (int i = 0; i < 8; ++i) {
        const double angle = (i + 0.5) * std::numbers::pi / 4;
        shape << QPointF(8 + 7.2 * std::cos(angle), 8 + 7.2 * std::sin(angle));
    }
    return shape;
}

/// Lets the painter draw on a grid of 16 in the largest square of `box`.
void enter_grid(QPainter& painter, const QRectF& box) {
    const double side = std::min(box.width(), box.height());
    painter.translate(box.center().x() - side / 2, box.center().y() - side / 2);
    painter.scale(side / 16, side / 16);
    painter.setRenderHint(QPainter::Antialiasing);
}

}  // namespace

void paint_kind(QPainter& painter, const QRectF& box, ChannelKind kind, const QColor& colour) {
    painter.save();
    enter_grid(painter, box);
    painter.setPen(QPen(colour, 1.6, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    switch (kind) {
        case ChannelKind::valve:
            paint_travel(painter);
            break;
        case ChannelKind::lamp:
            paint_rays(painter);
            break;
        case ChannelKind::motor:
            paint_arc(painter);
            break;
        case ChannelKind::jaw:
            paint_hinge(painter);
            break;
        case ChannelKind::other:
            paint_dot(painter);
            break;
    }
    painter.restore();
}

void paint_severity(QPainter& painter, const QRectF& box, Severity severity, const QColor& colour) {
    painter.save();
    enter_grid(painter, box);
    painter.setPen(Qt::NoPen);
    painter.setBrush(colour);
    switch (severity) {
        case Severity::stop:
            painter.drawPolygon(octagon());
            break;
        case Severity::warn:
            painter.drawPolygon(QPolygonF{QPointF(8, 1.5), QPointF(15.2, 14.5), QPointF(0.8, 14.5)});
            break;
        case Severity::note:
            painter.setPen(QPen(colour, 2.6));
            painter.setBrush(Qt::NoBrush);
            painter.drawEllipse(QPointF(8, 8), 5.4, 5.4);
            break;
    }
    painter.restore();
}

QIcon kind_icon(ChannelKind kind) {
    return painted_icon("kind" + QString::number(static_cast<int>(kind)),
                        [kind](QPainter& painter, const QRectF& box, QIcon::Mode mode, QIcon::State) {
                            const QColor colour =
                                mode == QIcon::Disabled ? look().text_soft : look().kind_edge(kind);
                            paint_kind(painter, box, kind, colour);
                        });
}

QIcon severity_icon(Severity severity) {
    return painted_icon("severity" + QString::number(static_cast<int>(severity)),
                        [severity](QPainter& painter, const QRectF& box, QIcon::Mode, QIcon::State) {
                            paint_severity(painter, box, severity, look().severity(severity));
                        });
}

QString kind_word(ChannelKind kind) {
    static const std::array words{"valve", "lamp", "motor", "jaw", "other"};
    return words.at(static_cast<std::size_t>(kind));
}

}  // namespace gasp
