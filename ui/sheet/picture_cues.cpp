// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/signs.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"
#include "ui/timeline/travel_picture.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <span>
#include <tuple>
#include <vector>

namespace gasp {

namespace {

/// Flashes narrower than this run together into an even tint.
constexpr double least_flash_px = 1.2;

QColor with_alpha(QColor colour, int alpha) {
    colour.setAlpha(alpha);
    return colour;
}

QString words_of(const Cue& cue) {
    QString text = shown(cue.name);
    if (cue.flashes) {
        text += (text.isEmpty() ? "" : ", ") + QString::number(cue.flashes->rate_hz, 'g', 3) + " Hz";
    }
    return text;
}

/// What the output really does within the cue, as scheduled.
void paint_dwells(QPainter& painter, const PicturePage& page, ChannelKind kind, std::span<const Dwell> dwells,
                  const QRectF& box) {
    const auto first = std::ranges::upper_bound(dwells, page.time_at(box.left()), {}, &Dwell::end);
    painter.setPen(Qt::NoPen);
    painter.setBrush(page.colours.kind(kind));
    for (auto dwell = first; dwell != dwells.end() && page.x_of(dwell->begin) < box.right(); ++dwell) {
        const double left = std::max(page.x_of(dwell->begin), box.left());
        const double right = std::min(page.x_of(dwell->end), box.right());
        painter.drawRect(QRectF(left, box.top(), std::max(right - left, 0.5), box.height()));
    }
}

/// Sign and words, at the left end of a box.
void paint_words(QPainter& painter, const PicturePage& page, const Cue& cue, ChannelKind kind,
                 const QRectF& box) {
    constexpr double sign_px = 13.0;
    if (box.width() < sign_px + 6 || box.height() < sign_px) {
        return;
    }
    const QColor ink = page.colours.on_kind(kind);
    paint_kind(painter, {box.left() + 4, box.center().y() - sign_px / 2, sign_px, sign_px}, kind, ink);
    draw_text(painter, box.adjusted(sign_px + 8, 0, -4, 0), {font(TypeSize::small, true), ink},
              words_of(cue));
}

/// A band of words above the flashes, where there is room for both.
double words_height(const Cue& cue, const QRectF& box) {
    constexpr double band_px = 16.0;
    return cue.flashes && box.height() >= band_px + 8 ? band_px : box.height();
}

/// Flashes as scheduled, or an even tint where they are too narrow to be seen.
void paint_flashes(QPainter& painter, const PicturePage& page, const Cue& cue, ChannelKind kind,
                   std::span<const Dwell> dwells, const QRectF& box) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(with_alpha(page.colours.kind(kind), 70));
    painter.drawRect(box);
    if (page.view().px_of(Micros{1'000'000}) / cue.flashes->rate_hz / 2 >= least_flash_px) {
        paint_dwells(painter, page, kind, dwells, box);
    }
}

void paint_cue(QPainter& painter, const PicturePage& page, const Cue& cue, ChannelKind kind,
               std::span<const Dwell> dwells, const QRectF& strip) {
    const Micros start = start_of(page.content.sequence, cue);
    const double left = std::max(page.x_of(start), page.left());
    const double right = std::min(page.x_of(start + cue.length), page.right());
    if (right < page.left() || left > page.right() || right < left) {
        return;
    }
    const QRectF box(left, strip.top(), std::max(right - left, 2.0), strip.height());
    const QRectF words(box.left(), box.top(), box.width(), words_height(cue, box));
    painter.setPen(Qt::NoPen);
    painter.setBrush(page.colours.kind(kind));
    painter.drawRoundedRect(words, 3, 3);
    if (cue.flashes && words.height() < box.height()) {
        paint_flashes(painter, page, cue, kind, dwells, box.adjusted(0, words.height() - 2, 0, 0));
    }
    painter.setPen(QPen(page.colours.kind_edge(kind), 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(box, 3, 3);
    paint_words(painter, page, cue, kind, words);
}

/// A bar over the stretch in which two cues ask for the same channel.
void paint_overlaps(QPainter& painter, const PicturePage& page, const std::vector<const Cue*>& cues,
                    const QRectF& strip) {
    const Sequence& sequence = page.content.sequence;
    Micros covered{0};
    for (const Cue* cue : cues) {
        const Micros start = start_of(sequence, *cue);
        const Micros end = start + cue->length;
        const double left = std::max(page.x_of(start), page.left());
        const double right = std::min(page.x_of(std::min(end, covered)), page.right());
        if (start < covered && right > left) {
            painter.fillRect(QRectF(left, strip.top() - 3, std::max(right - left, 2.0), 3),
                             page.colours.stop);
        }
        covered = std::max(covered, end);
    }
}

/// The cues of a channel in order of their starts, the longer of two below the shorter.
std::vector<const Cue*> cues_of(const Sequence& sequence, ChannelId channel) {
    std::vector<const Cue*> cues;
    for (const Cue& cue : sequence.cues) {
        if (cue.channel == channel) {
            cues.push_back(&cue);
        }
    }
    std::ranges::sort(cues, {}, [&](const Cue* cue) {
        return std::tuple(start_of(sequence, *cue), -cue->length, cue->id);
    });
    return cues;
}

/// The part of a line between two x; its points are in order of x.
QPolygonF cut_at_edges(const QPolygonF& line, double left, double right) {
    QPolygonF result;
    const auto at = [](const QPointF& a, const QPointF& b, double x) {
        return QPointF(x, b.x() > a.x() ? a.y() + (b.y() - a.y()) * (x - a.x()) / (b.x() - a.x()) : b.y());
    };
    for (qsizetype index = 0; index + 1 < line.size(); ++index) {
        const QPointF& a = line[index];
        const QPointF& b = line[index + 1];
        if (b.x() < left || a.x() > right) {
            continue;
        }
        result << (a.x() < left ? at(a, b, left) : a) << (b.x() > right ? at(a, b, right) : b);
    }
    return result;
}

/// On the page, to the end of the sequence.
QPolygonF line_of(const std::vector<CurvePoint>& curve, const PicturePage& page, const QRectF& strip) {
    QPolygonF line;
    for (const CurvePoint& point : curve) {
        const Micros time{std::llround(point.time_s * 1e6)};
        line << QPointF(page.x_of(time), strip.bottom() - point.value * strip.height());
    }
    if (line.isEmpty()) {
        return line;
    }
    line << QPointF(std::max(page.x_of(page.content.sequence.length), line.back().x()), line.back().y());
    return cut_at_edges(line, page.left(), page.right());
}

/// Where the travel may be as well.
void paint_soft_edges(QPainter& painter, const PicturePage& page, const TravelPicture& travel,
                      const QRectF& strip) {
    painter.setPen(Qt::NoPen);
    painter.setBrush(with_alpha(page.colours.valve, 40));
    for (const TravelPicture::Edge& edge : travel.edges) {
        QPolygonF area = line_of(edge.early, page, strip);
        const QPolygonF late = line_of(edge.late, page, strip);
        std::ranges::reverse_copy(late, std::back_inserter(area));
        painter.drawPolygon(area, Qt::WindingFill);
    }
}

void paint_travel(QPainter& painter, const PicturePage& page, ActuatorId id, const QRectF& strip) {
    const SequenceAir& air = page.content.air;
    const FigureMotion* motion = air.motion_of(id);
    if (motion == nullptr || strip.height() < 6) {
        return;
    }
    const std::span<const Stroke> strokes =
        air.run ? std::span<const Stroke>(air.run->strokes) : std::span<const Stroke>();
    const TravelPicture travel = travel_picture(motion->curve, id, strokes, air.bands);
    const QPolygonF line = line_of(travel.line, page, strip);
    if (line.isEmpty()) {
        return;
    }
    paint_soft_edges(painter, page, travel, strip);
    QPolygonF ground = line;
    ground << QPointF(line.back().x(), strip.bottom()) << QPointF(line.front().x(), strip.bottom());
    painter.setPen(Qt::NoPen);
    painter.setBrush(with_alpha(page.colours.valve, 45));
    painter.drawPolygon(ground);
    painter.setPen(
        QPen(page.colours.kind_edge(ChannelKind::valve), 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(Qt::NoBrush);
    painter.drawPolyline(line);
    if (!motion->out_known || !motion->back_known) {
        draw_text(painter, {page.left() + 16, strip.top(), 220, std::min(strip.height(), 14.0)},
                  {font(TypeSize::small), page.colours.text_soft}, QStringLiteral("stroke times not known"));
    }
}

/// The driven stretches of one channel; empty where the schedule does not have it.
std::vector<Dwell> dwells_of_channel(const Schedule& schedule, ChannelId channel) {
    std::vector<Dwell> dwells;
    for (const SwitchEvent& event : schedule.events) {
        if (event.channel == channel && event.driven) {
            dwells.push_back({event.time, schedule.length});
        } else if (event.channel == channel && !dwells.empty()) {
            dwells.back().end = event.time;
        }
    }
    return dwells;
}

}  // namespace

void paint_channel_lane(QPainter& painter, const PicturePage& page, const PictureLane& lane) {
    const QRectF plot = page.plot_of(lane.box);
    const double margin = plot.height() >= 20 ? 4.0 : 1.0;
    QRectF strip = plot.adjusted(0, margin, 0, -margin - 1);
    if (lane.lane.travel) {
        const QRectF path(strip.left(), strip.top(), strip.width(), strip.height() * 0.56);
        strip.setTop(path.bottom() + 3);
        paint_travel(painter, page, *lane.lane.travel, path);
    }
    const std::vector<Dwell> dwells = dwells_of_channel(page.content.schedule, lane.lane.channel);
    const std::vector<const Cue*> cues = cues_of(page.content.sequence, lane.lane.channel);
    for (const Cue* cue : cues) {
        paint_cue(painter, page, *cue, lane.lane.channel_kind, dwells, strip);
    }
    paint_overlaps(painter, page, cues, strip);
}

}  // namespace gasp
