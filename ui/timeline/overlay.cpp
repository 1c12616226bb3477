// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/overlay.hpp"

#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/timeline/hit.hpp"
#include "ui/timeline/lane_painter.hpp"
#include "ui/timeline/strikes.hpp"

#include <QFontMetrics>
#include <QPainter>

#include <array>
#include <cmath>

namespace gasp::overlay {

namespace {

constexpr int pad = 6;
constexpr int line_px = 16;

int column(const Scene& scene, Micros time) {
    return static_cast<int>(std::lround(scene.view().x_of(time)));
}

/// The box of the read-out: beside the pointer, inside the lanes.
QRect figures_box(const DragShow& drag, const QRect& lanes) {
    const QFontMetrics metrics(font(TypeSize::small));
    const int width = metrics.horizontalAdvance(drag.figures) + 2 * pad;
    QRect box(drag.at.toPoint() + QPoint(16, 20), QSize(width, line_px + 4));
    if (box.right() > lanes.right()) {
        box.moveRight(static_cast<int>(drag.at.x()) - 16);
    }
    if (box.bottom() > lanes.bottom()) {
        box.moveBottom(static_cast<int>(drag.at.y()) - 16);
    }
    box.moveLeft(std::max(box.left(), lanes.left()));
    return box;
}

QRect snap_box(const Scene& scene, const Snap& snap, const QRect& lanes) {
    const QFontMetrics metrics(font(TypeSize::small));
    const int x = column(scene, snap.time);
    QRect box(x + 4, lanes.top() + 4, metrics.horizontalAdvance(snap.word) + 2 * pad, line_px);
    if (box.right() > lanes.right()) {
        box.moveRight(x - 4);
    }
    return box;
}

void paint_tag(QPainter& painter, const QRect& box, const QString& text, const QColor& fill,
               const QColor& ink) {
    painter.fillRect(box, fill);
    painter.setPen(ink);
    painter.drawText(box, Qt::AlignCenter, text);
}

void paint_drag(QPainter& painter, const Scene& scene, const QRect& lanes) {
    const Palette& p = look();
    const DragShow& drag = scene.drag();
    if (drag.band) {
        painter.fillRect(*drag.band, QColor(p.text.red(), p.text.green(), p.text.blue(), 28));
        painter.setPen(QPen(p.text, 1, Qt::DotLine));
        painter.drawRect(drag.band->adjusted(0.5, 0.5, -0.5, -0.5));
    }
    if (drag.snap) {
        const int x = column(scene, drag.snap->time);
        painter.fillRect(QRect(x, lanes.top(), 1, lanes.height()), p.brass);
        paint_tag(painter, snap_box(scene, *drag.snap, lanes), drag.snap->word, p.brass, p.on_brass);
    }
    if (!drag.figures.isEmpty()) {
        const QRect box = figures_box(drag, lanes);
        paint_tag(painter, box, drag.figures, p.raised, p.text);
        painter.setPen(p.rule_strong);
        painter.drawRect(QRectF(box).adjusted(0.5, 0.5, -0.5, -0.5));
    }
}

/// The handles of strikes in sight: a flag at the moment, hollow while the cue is placed by its start, and
/// behind it how sure that moment is.
void paint_handle(QPainter& painter, const Scene& scene, const Lane& lane, CueId id) {
    const QRectF handle = handle_of(scene, id);
    const auto strike = handle.isEmpty() ? std::nullopt : seen_strike(scene, id);
    if (!strike) {
        return;
    }
    const LaneBands bands = bands_of(lane.height);
    const double bottom = scene.top_of(lane) + bands.cue_bottom;
    const double x = handle.center().x();
    const Palette& p = look();
    const double from = scene.view().x_of(strike->start + strike->soonest);
    const double to = strike->latest ? scene.view().x_of(strike->start + *strike->latest) : from;
    if (to - from >= 2.0) {
        const QColor soft(p.brass.red(), p.brass.green(), p.brass.blue(), 56);
        painter.fillRect(QRectF(from, handle.top(), to - from, bottom - handle.top()), soft);
    }
    const bool placed = find(scene.document().sequence(), id)->strikes;
    const QColor ink = strike->fault == StrikeFault::none ? p.brass : p.stop_text;
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(p.canvas, 3.0));
    painter.drawLine(QPointF(x, handle.top()), QPointF(x, bottom));
    painter.setPen(QPen(ink, 1.5));
    painter.drawLine(QPointF(x, handle.top()), QPointF(x, bottom));
    const std::array<QPointF, 3> flag{handle.topLeft(), handle.topRight(), QPointF(x, handle.bottom())};
    painter.setBrush(placed ? ink : p.canvas);
    painter.drawConvexPolygon(flag.data(), static_cast<int>(flag.size()));
    painter.setRenderHint(QPainter::Antialiasing, false);
}

void paint_handles(QPainter& painter, const Scene& scene) {
    constexpr int most = 400;
    int painted = 0;
    const ViewTransform& view = scene.view();
    for (const Lane& lane : scene.lanes().lanes()) {
        const int top = scene.top_of(lane);
        if (lane.kind != Lane::Kind::channel || lane.channel_kind != ChannelKind::valve ||
            top >= scene.scrolling_px() || top + lane.height <= 0) {
            continue;
        }
        scene.cues().of(lane.channel).overlapping(view.left(), view.right(), [&](const PlacedCue& cue) {
            if (++painted <= most) {
                paint_handle(painter, scene, lane, cue.id);
            }
        });
    }
}

void paint_flash(QPainter& painter, const Scene& scene, const QRect& lanes) {
    painter.setBrush(Qt::NoBrush);
    for (const CueId id : scene.flashed_cues()) {
        const QRectF box = box_of(scene, id);
        if (!box.isEmpty()) {
            painter.setPen(QPen(look().brass, 3));
            painter.drawRect(box.adjusted(-4.5, -3.5, 4.5, 3.5));
        }
    }
    if (scene.flashed_time()) {
        const QColor brass = look().brass;
        const QRect light(column(scene, *scene.flashed_time()) - 4, lanes.top(), 9, lanes.height());
        painter.fillRect(light, QColor(brass.red(), brass.green(), brass.blue(), 90));
    }
}

void paint_words(QPainter& painter, const QRectF& box, const QString& head, const QString& line) {
    painter.setFont(font(TypeSize::head));
    painter.setPen(look().text);
    painter.drawText(box.adjusted(0, 0, 0, -box.height() / 2), Qt::AlignHCenter | Qt::AlignBottom, head);
    painter.setFont(font(TypeSize::body));
    painter.setPen(look().text_soft);
    painter.drawText(box.adjusted(0, box.height() / 2 + 4, 0, 0), Qt::AlignHCenter | Qt::AlignTop, line);
    painter.setFont(font(TypeSize::small));
}

void paint_empty(QPainter& painter, const Scene& scene, const QRect& lanes) {
    const Sequence& sequence = scene.document().sequence();
    const Lane& sound = scene.lanes().lanes().front();
    const int sound_bottom = scene.top_of(sound) + sound.height;
    if (sequence.clips.empty()) {
        painter.setPen(look().text_soft);
        painter.setFont(font(TypeSize::body));
        painter.drawText(QRect(0, scene.top_of(sound), lanes.width(), sound.height), Qt::AlignCenter,
                         QObject::tr("Drop a sound file here, or click to choose one"));
        painter.setFont(font(TypeSize::small));
    }
    const QRectF rest(0, sound_bottom, lanes.width(), lanes.height() - sound_bottom);
    if (scene.document().show().rig.channels.empty()) {
        paint_words(painter, rest, QObject::tr("No channels yet"),
                    QObject::tr("Add a channel in the rig: each relay or valve gets a lane here"));
    } else if (sequence.cues.empty()) {
        const QRectF box(0, scene.lanes().height() - scene.scroll_y(), lanes.width(), 96);
        if (box.bottom() <= lanes.bottom()) {
            paint_words(painter, box, QObject::tr("No cues yet"),
                        QObject::tr("Drag along a lane to draw one, or press C at the playhead"));
        }
    }
}

}  // namespace

QRegion region(const Scene& scene, const QRect& lanes) {
    const DragShow& drag = scene.drag();
    QRegion result;
    if (drag.band) {
        result += drag.band->toAlignedRect().adjusted(-1, -1, 1, 1);
    }
    if (drag.snap) {
        result += QRect(column(scene, drag.snap->time), lanes.top(), 1, lanes.height());
        result += snap_box(scene, *drag.snap, lanes);
    }
    if (!drag.figures.isEmpty()) {
        result += figures_box(drag, lanes);
    }
    return result;
}

void paint(QPainter& painter, const Scene& scene, const QRect& lanes, bool focus) {
    painter.setFont(font(TypeSize::small));
    paint_empty(painter, scene, lanes);
    painter.save();
    painter.setClipRect(QRect(lanes.left(), lanes.top(), lanes.width(), scene.scrolling_px()),
                        Qt::IntersectClip);
    paint_handles(painter, scene);
    painter.restore();
    paint_flash(painter, scene, lanes);
    paint_drag(painter, scene, lanes);
    if (focus) {
        painter.setPen(look().brass);
        painter.drawLine(lanes.topLeft(), lanes.topRight());
    }
}

}  // namespace gasp::overlay
