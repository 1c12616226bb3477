// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"
#include "ui/timeline/ticks.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>

namespace gasp {

namespace {

/// Of masts that stand closer one is drawn for all: a page of them would hide what they stand on.
constexpr double least_apart_px = 5.0;

/// A pennant at the mast of a mark, with its name behind.
void paint_flag(QPainter& painter, const PicturePage& page, const PictureFlag& flag) {
    const double x = page.x_of(flag.mark->time);
    const QRectF box(flag.left, page.marks.top() + static_cast<double>(flag.row) * PicturePage::flag_px,
                     flag.width, PicturePage::flag_px);
    painter.setPen(Qt::NoPen);
    painter.setBrush(page.colours.brass);
    painter.drawPolygon(QPolygonF{{x, box.top() + 4}, {x + 9, box.center().y()}, {x, box.bottom() - 4}});
    draw_text(painter, box, {font(TypeSize::small, true), page.colours.brass_text}, shown(flag.mark->name));
}

double lanes_bottom(const PicturePage& page) {
    return page.lanes.empty() ? page.marks.bottom() : page.lanes.back().box.bottom();
}

/// What the labels of the ruler are counted in.
QString unit_of(const Grid& grid) {
    switch (grid.kind) {
        case Grid::Kind::frames:
            return QStringLiteral("min:s:frame");
        case Grid::Kind::beats:
            return QStringLiteral("bar.beat");
        case Grid::Kind::seconds:
            break;
    }
    return QStringLiteral("min:s");
}

}  // namespace

void paint_ruler(QPainter& painter, const PicturePage& page) {
    const QFont small = font(TypeSize::small);
    const auto width = [&](const std::string& label) {
        return text_width(small, QString::fromStdString(label));
    };
    const Grid& grid = page.style.grid;
    const TickScale scale =
        tick_scale(grid, page.view().us_per_px(), page.view().left(), page.view().right(), 24.0, width);
    const QRectF plot = page.plot_of(page.ruler);
    painter.fillRect(plot, page.colours.raised);
    draw_text(painter, page.label_of(page.ruler), {small, page.colours.text_soft}, unit_of(grid));
    for (const Tick& tick :
         ticks(grid, scale, std::max(page.view().left(), Micros{0}), page.view().right())) {
        const double x = page.x_of(tick.time);
        const double length = tick.labelled ? 8.0 : 4.0;
        painter.fillRect(QRectF(x - 0.5, plot.bottom() - length, 1, length), page.colours.rule_strong);
        if (tick.labelled) {
            painter.fillRect(
                QRectF(x - 0.5, page.marks.bottom(), 1, lanes_bottom(page) - page.marks.bottom()),
                page.colours.rule);
            const QString label = QString::fromStdString(tick_label(grid, scale, tick.unit));
            const double half = text_width(small, label) / 2 + 1;
            const double middle = std::clamp(x, plot.left() + half, plot.right() - half);
            draw_text(painter, {middle - half, plot.top(), 2 * half, plot.height() - 7},
                      {small, page.colours.text, Qt::AlignHCenter | Qt::AlignVCenter}, label);
        }
    }
}

void paint_mark_lines(QPainter& painter, const PicturePage& page) {
    double last = -least_apart_px;
    for (const PictureFlag& flag : page.flags) {
        const double x = page.x_of(flag.mark->time);
        if (x - last < least_apart_px) {
            continue;
        }
        last = x;
        painter.fillRect(QRectF(x - 0.5, page.marks.top() + 2, 1, lanes_bottom(page) - page.marks.top() - 2),
                         page.colours.brass);
    }
}

void paint_mark_flags(QPainter& painter, const PicturePage& page) {
    draw_text(painter, {page.marks.left(), page.marks.top(), PicturePage::side_px, PicturePage::flag_px},
              {font(TypeSize::small), page.colours.text_soft}, QStringLiteral("marks"));
    double last = -least_apart_px;
    for (const PictureFlag& flag : page.flags) {
        const double x = page.x_of(flag.mark->time);
        if (x - last >= least_apart_px || flag.width > 0.0) {
            last = x;
            paint_flag(painter, page, flag);
        }
    }
}

}  // namespace gasp
