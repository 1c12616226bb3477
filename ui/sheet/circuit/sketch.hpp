// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/print_type.hpp"

#include <QPointF>
#include <QPolygonF>
#include <QRectF>
#include <QString>

class QPainter;

namespace gasp {

/// Draws what circuits are made of, in tenths of a millimetre, in one thin black line: no fills but those
/// that mean something, so that it prints and copies.
class Sketch {
  public:
    enum class Stroke { solid, dashed, chain };
    enum class Align { left, centre, right };
    enum class Way { up, down, left, right };

    explicit Sketch(QPainter& painter);

    void line(QPointF from, QPointF to, Stroke stroke = Stroke::solid);
    void path(const QPolygonF& points, Stroke stroke = Stroke::solid);
    void box(const QRectF& box, Stroke stroke = Stroke::solid);
    /// Rounded at its ends: a vessel.
    void capsule(const QRectF& box);
    void circle(QPointF centre, double radius, bool filled = false);
    /// Filled half circle and the like are paths; a triangle tells air that flows, open.
    void triangle(QPointF tip, Way way, double size, bool filled = false);
    /// A line with a filled head at its end.
    void arrow(QPointF from, QPointF to);
    /// A zigzag between two points on a level.
    void spring(QPointF from, QPointF to, double height);
    /// Where lines are joined.
    void dot(QPointF at) { circle(at, 7.0, true); }
    /// One line, its middle at the height of `at`; cut with an ellipsis where it is wider.
    void words(QPointF at, Align align, const QString& text, double width,
               PrintFace face = {PrintSize::small});
    /// As many lines as it takes, at most so many, below `at`; the height they have.
    double lines(QPointF at, Align align, const QString& text, double width, int most_lines,
                 PrintFace face = {PrintSize::small});
    /// Whether so many lines hold it whole.
    [[nodiscard]] bool fits(const QString& text, double width, int most_lines,
                            PrintFace face = {PrintSize::small});

  private:
    QPainter& painter_;
    PrintMeasure measure_;
};

}  // namespace gasp
