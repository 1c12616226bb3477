// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/circuit/sketch.hpp"

#include <QPainter>

#include <cmath>

namespace gasp {

namespace {

constexpr double pen_width = 3.0;

QPen pen_of(Sketch::Stroke stroke) {
    QPen pen(print_ink(), pen_width, Qt::SolidLine, Qt::FlatCap, Qt::MiterJoin);
    if (stroke == Sketch::Stroke::dashed) {
        pen.setDashPattern({5, 3});
    } else if (stroke == Sketch::Stroke::chain) {
        pen.setDashPattern({9, 3, 2, 3});
    }
    return pen;
}

}  // namespace

Sketch::Sketch(QPainter& painter) : painter_(painter) {
    painter_.setBrush(Qt::NoBrush);
}

void Sketch::line(QPointF from, QPointF to, Stroke stroke) {
    painter_.setPen(pen_of(stroke));
    painter_.drawLine(from, to);
}

void Sketch::path(const QPolygonF& points, Stroke stroke) {
    painter_.setPen(pen_of(stroke));
    painter_.drawPolyline(points);
}

void Sketch::box(const QRectF& box, Stroke stroke) {
    painter_.setPen(pen_of(stroke));
    painter_.drawRect(box);
}

void Sketch::capsule(const QRectF& box) {
    painter_.setPen(pen_of(Stroke::solid));
    painter_.drawRoundedRect(box, box.height() / 2, box.height() / 2);
}

void Sketch::circle(QPointF centre, double radius, bool filled) {
    painter_.setPen(pen_of(Stroke::solid));
    if (filled) {
        painter_.setBrush(print_ink());
    }
    painter_.drawEllipse(centre, radius, radius);
    painter_.setBrush(Qt::NoBrush);
}

void Sketch::triangle(QPointF tip, Way way, double size, bool filled) {
    QPolygonF shape;
    const double half = size * 0.55;
    switch (way) {
        case Way::up:
            shape = QPolygonF{tip, QPointF(tip.x() - half, tip.y() + size),
                              QPointF(tip.x() + half, tip.y() + size)};
            break;
        case Way::down:
            shape = QPolygonF{tip, QPointF(tip.x() - half, tip.y() - size),
                              QPointF(tip.x() + half, tip.y() - size)};
            break;
        case Way::left:
            shape = QPolygonF{tip, QPointF(tip.x() + size, tip.y() - half),
                              QPointF(tip.x() + size, tip.y() + half)};
            break;
        case Way::right:
            shape = QPolygonF{tip, QPointF(tip.x() - size, tip.y() - half),
                              QPointF(tip.x() - size, tip.y() + half)};
            break;
    }
    painter_.setPen(pen_of(Stroke::solid));
    if (filled) {
        painter_.setBrush(print_ink());
    }
    painter_.drawPolygon(shape);
    painter_.setBrush(Qt::NoBrush);
}

void Sketch::arrow(QPointF from, QPointF to) {
    constexpr double head = 20.0;
    constexpr double half = 6.5;
    const QPointF way = to - from;
    const double length = std::hypot(way.x(), way.y());
    if (length <= 0.0) {
        return;
    }
    const QPointF along = way / length;
    const QPointF across(-along.y(), along.x());
    const QPointF base = to - along * head;
    line(from, base);
    painter_.setPen(Qt::NoPen);
    painter_.setBrush(print_ink());
    painter_.drawPolygon(QPolygonF{to, base + across * half, base - across * half});
    painter_.setBrush(Qt::NoBrush);
}

void Sketch::spring(QPointF from, QPointF to, double height) {
    constexpr int teeth = 6;
    QPolygonF points{from};
    const double step = (to.x() - from.x()) / teeth;
    for (int i = 0; i < teeth; ++i) {
        const double y = from.y() + (i % 2 == 0 ? -height / 2 : height / 2);
        points << QPointF(from.x() + step * (i + 0.5), y);
    }
    points << to;
    path(points);
}

void Sketch::words(QPointF at, Align align, const QString& text, double width, PrintFace face) {
    if (text.isEmpty()) {
        return;
    }
    const QString cut = measure_.cut(face, text, width);
    double x = at.x();
    if (align == Align::right) {
        x -= measure_.width(face, cut);
    } else if (align == Align::centre) {
        x -= measure_.width(face, cut) / 2;
    }
    painter_.setFont(print_font(face.size, face.strong));
    painter_.setPen(print_ink(face.soft));
    painter_.drawText(QPointF(x, at.y() + (measure_.ascent(face) - measure_.descent(face)) / 2), cut);
}

double Sketch::lines(QPointF at, Align align, const QString& text, double width, int most_lines,
                     PrintFace face) {
    const double line_height = print_px(face.size) * 1.24;
    double y = at.y() + line_height / 2;
    for (const QString& one : measure_.lines(face, text, width, most_lines)) {
        words({at.x(), y}, align, one, width, face);
        y += line_height;
    }
    return y - line_height / 2 - at.y();
}

bool Sketch::fits(const QString& text, double width, int most_lines, PrintFace face) {
    return measure_.lines(face, text, width, most_lines + 1).size() <= most_lines;
}

}  // namespace gasp
