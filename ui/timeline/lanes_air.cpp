// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/rounded.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/lanes_image.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

// What the air does, on the picture of the lanes.

namespace gasp {

namespace {

/// The words of the pressure's limits keep clear of the playhead at 0, and of those of the lowest pressure.
constexpr double limits_left_px = 24.0;
constexpr double limits_room_px = 160.0;
constexpr double soft_share = 0.13;  // of one edge of the band; the three add up
constexpr double ahead_px = 1.0;     // thickness of what is not of the run yet

}  // namespace

const TravelPicture& LanesImage::travel_of(ActuatorId id) {
    const auto [entry, fresh] = travel_.try_emplace(id);
    const auto result = scene_.result();
    if (!fresh || result == nullptr) {
        return entry->second;
    }
    if (const MotionPreview* ahead = scene_.ahead_of(id)) {
        entry->second = travel_picture(ahead->motion, id, {}, {});
    } else if (const FigureMotion* motion = result->air.motion_of(id);
               motion != nullptr && motion->out_known && motion->back_known) {
        const std::span<const Stroke> strokes =
            result->air.run ? std::span<const Stroke>(result->air.run->strokes) : std::span<const Stroke>();
        entry->second = travel_picture(motion->curve, id, strokes, result->air.bands);
    }
    return entry->second;
}

void LanesImage::paint_travel(const Lane& lane) {
    const TravelPicture& travel = travel_of(*lane.travel);
    if (travel.line.empty()) {
        return;
    }
    const LaneBands bands = bands_of(lane.height);
    CurvePaint paint;
    paint.box = device_box(lane, bands.cue_top + 2, lane.height - bands.cue_bottom + 2);
    paint.thickness = 2.0 * scale_;
    paint.line = look().text.rgb();
    paint.shade = look().text.rgb();
    const auto columns = [this](const std::vector<CurvePoint>& curve) {
        return columns_of(curve, scene_.view(), scale_, image_.width());
    };
    paint.shade_share = soft_share;
    for (const TravelPicture::Edge& edge : travel.edges) {
        if (!edge.early.empty()) {
            paint_between(image_, columns(edge.early), columns(edge.late), paint);
        }
    }
    paint.shade_share = 0.16;
    const std::vector<ColumnRange> line = columns(travel.line);
    const MotionPreview* ahead = scene_.ahead_of(*lane.travel);
    if (ahead == nullptr) {
        paint_curve(image_, line, paint);
        return;
    }
    CurvePaint thin = paint;
    thin.thickness = ahead_px * scale_;
    thin.shade_share = 0.0;
    const QRect whole = paint.box;
    int from = whole.left();
    for (const Dwell& stretch : ahead->ahead) {
        const int begin = std::clamp(column_of(stretch.begin), from, whole.right() + 1);
        const int end = std::clamp(column_of(stretch.end), begin, whole.right() + 1);
        paint.box = QRect(from, whole.top(), begin - from, whole.height());
        thin.box = QRect(begin, whole.top(), end - begin, whole.height());
        paint_curve(image_, line, paint);
        paint_curve(image_, line, thin);
        from = end;
    }
    paint.box = QRect(from, whole.top(), whole.right() + 1 - from, whole.height());
    paint_curve(image_, line, paint);
}

void LanesImage::paint_pressure(const Lane& lane) {
    const Palette& p = look();
    const QRect lane_box = device_box(lane, 0, 0);
    lane_painter_.paint_empty(image_, lane_box.top(), lane_box.height(), scale_, background_, p.rule.rgb());
    if (&lane == scene_.pinned()) {
        QPainter(&image_).fillRect(lane_box.left(), lane_box.top(), lane_box.width(), 1, p.rule_strong);
    }
    const auto result = scene_.result();
    const AirPlant& plant = scene_.document().show().rig.air_plant;
    if (!result || !result->air.run || !result->air.receiver_missing.empty() || !plant.cut_in_kpa_gauge ||
        !plant.cut_out_kpa_gauge) {
        return;
    }
    CurvePaint paint;
    paint.box = device_box(lane, 8, 8);
    const double span = std::max(*plant.cut_out_kpa_gauge - result->air.run->lowest_receiver_kpa, 1.0);
    paint.least = result->air.run->lowest_receiver_kpa - 0.15 * span;
    paint.most = *plant.cut_out_kpa_gauge + 0.10 * span;
    paint.thickness = 1.6 * scale_;
    paint.line = p.pressure.rgb();
    paint.shade = p.pressure.rgb();
    paint.shade_share = scene_.late() ? 0.0 : 0.12;
    const std::vector<CurvePoint>& curve = result->air.run->receiver_kpa.points;
    paint_curve(image_, columns_of(curve, scene_.view(), scale_, image_.width()), paint);

    paint_limits(lane, paint);
    if (scene_.late()) {
        paint_late(lane);
    }
}

/// What is drawn is of the document as it was.
void LanesImage::paint_late(const Lane& lane) {
    QPainter painter(&image_);
    painter.scale(scale_, scale_);
    painter.setFont(font(TypeSize::small));
    const QString words = QObject::tr("working it out\u2026");
    const double wide = QFontMetricsF(painter.font()).horizontalAdvance(words) + 12;
    const QRectF box(scene_.view().width() - wide - 8, scene_.top_of(lane) + lane.height - 24.0, wide, 16);
    painter.fillRect(box, look().raised);
    painter.setPen(look().text);
    painter.drawText(box, Qt::AlignCenter, words);
}

void LanesImage::paint_limits(const Lane& lane, const CurvePaint& paint) {
    const Palette& p = look();
    const AirPlant& plant = scene_.document().show().rig.air_plant;
    const AirRun& air = *scene_.result()->air.run;
    QPainter painter(&image_);
    painter.scale(scale_, scale_);
    painter.setFont(font(TypeSize::small));
    const QFontMetricsF metrics(painter.font());
    const QRectF inner(0, paint.box.top() / scale_, scene_.view().width(), paint.box.height() / scale_);
    const auto y_of = [&](double kpa) {
        return std::round(inner.bottom() - (kpa - paint.least) / (paint.most - paint.least) * inner.height());
    };
    const auto words = [&](double x, double y, const QString& text, const QColor& ink) {
        const QRectF box(x, std::max(y, scene_.top_of(lane) + 1.0), metrics.horizontalAdvance(text) + 8, 14);
        painter.fillRect(box, p.canvas);
        painter.setPen(ink);
        painter.drawText(box, Qt::AlignCenter, text);
    };
    const auto printed = [this](double kpa) {
        return QString::fromStdString(print_rounded(Quantity::gauge_pressure, kpa, scene_.units()));
    };
    const QPointF point(scene_.view().x_of(air.lowest_at), y_of(air.lowest_receiver_kpa));
    const std::pair<double, QString> limits[] = {{*plant.cut_out_kpa_gauge, "cut-out "},
                                                 {*plant.cut_in_kpa_gauge, "cut-in "}};
    for (const auto& [kpa, word] : limits) {
        painter.setPen(QPen(p.rule_strong, 1, Qt::DashLine));
        painter.drawLine(QPointF(0, y_of(kpa) + 0.5), QPointF(inner.right(), y_of(kpa) + 0.5));
        const QString text = word + printed(kpa);
        const double left = limits_left_px;
        const double right = inner.right() - limits_left_px - metrics.horizontalAdvance(text);
        words(point.x() < limits_room_px ? right : left, y_of(kpa) - 7, text, p.text_soft);
    }
    const QString lowest = "lowest " + printed(air.lowest_receiver_kpa);
    const double wide = metrics.horizontalAdvance(lowest) + 8;
    const bool room = point.x() + 8 + wide < inner.right();
    words(room ? point.x() + 8 : point.x() - 8 - wide, point.y() - 7, lowest, p.text);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(p.canvas, 1.5));
    painter.setBrush(p.pressure);
    painter.drawEllipse(point, 4, 4);
}

}  // namespace gasp
