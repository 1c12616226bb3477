// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/timeline_picture.hpp"

#include "ui/sheet/picture_parts.hpp"

#include <QPainter>
#include <QRectF>

#include <algorithm>

namespace gasp {

namespace {

/// Logical pixels become so many of the page.
double scale_of(double width) {
    constexpr double usual_width = 1600.0;
    return std::max(1.0, width / usual_width);
}

}  // namespace

TimelinePicture::TimelinePicture(PictureContent content, PictureStyle style)
    : content_(std::move(content)), style_(style) {}

int TimelinePicture::height_for(int width) const {
    const double scale = scale_of(width);
    return static_cast<int>(PicturePage::height(content_, style_, width / scale) * scale + 0.5);
}

void TimelinePicture::paint(QPainter& painter, const QRectF& page) const {
    const double scale = scale_of(page.width());
    painter.save();
    painter.translate(page.topLeft());
    painter.scale(scale, scale);
    painter.setRenderHints(QPainter::Antialiasing | QPainter::TextAntialiasing);
    // A name in Arabic letters must not turn the order of the figures beside it.
    painter.setLayoutDirection(Qt::LeftToRight);
    const PicturePage parts(content_, style_, page.size() / scale);
    if (!style_.bare) {
        paint_head(painter, parts);
    }
    paint_lane_grounds(painter, parts);
    paint_ruler(painter, parts);
    paint_mark_lines(painter, parts);
    paint_lanes(painter, parts);
    paint_mark_flags(painter, parts);
    paint_findings(painter, parts);
    if (!style_.bare) {
        paint_legend(painter, parts);
    }
    painter.restore();
}

}  // namespace gasp
