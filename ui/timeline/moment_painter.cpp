// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/moment_painter.hpp"

#include "ui/look/look.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double foot_px = 4.0;
constexpr double tick_px = 6.0;
constexpr double wedge_px = 4.0;
/// Onsets that lie nearer to one another are drawn as one.
constexpr double least_apart_px = 3.0;

void paint_word_edge(QPainter& painter, double x, double top, double bottom, double foot) {
    painter.drawPolyline(QPolygonF({{x, top + wedge_px}, {x, bottom - 0.5}, {x + foot, bottom - 0.5}}));
}

void paint_wedge(QPainter& painter, double x, double top) {
    const QPolygonF wedge({{x - wedge_px, top}, {x + wedge_px, top}, {x, top + 1.5 * wedge_px}});
    painter.setBrush(painter.pen().color());
    painter.drawPolygon(wedge);
    painter.setBrush(Qt::NoBrush);
}

}  // namespace

void paint_moments(QPainter& painter, std::span<const SoundMoment> moments, const ViewTransform& view,
                   double top, double bottom) {
    QColor faint = look().text;
    faint.setAlphaF(0.5F);
    painter.setPen(faint);
    double last_tick = -1e9;
    auto moment = std::ranges::lower_bound(moments, view.left(), {}, &SoundMoment::time);
    for (; moment != moments.end() && moment->time <= view.right(); ++moment) {
        const double x = std::floor(view.x_of(moment->time)) + 0.5;
        switch (moment->kind) {
            case MomentKind::word:
                paint_word_edge(painter, x, top, bottom, foot_px);
                break;
            case MomentKind::pause:
                paint_word_edge(painter, x, top, bottom, -foot_px);
                break;
            case MomentKind::loudest:
                paint_wedge(painter, x, top);
                break;
            case MomentKind::onset:
                if (x - last_tick >= least_apart_px) {
                    painter.drawLine(QPointF(x, bottom - tick_px), QPointF(x, bottom - 1.0));
                    last_tick = x;
                }
                break;
        }
    }
}

}  // namespace gasp
