// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/signs.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>

namespace gasp {

namespace {

/// Below these heights a label has no second line, or none at all.
constexpr double two_lines_px = 30.0;
constexpr double one_line_px = 13.0;

QString wiring_of(const Show& show, const Channel& channel) {
    QString text;
    if (const Board* board = channel.board ? find(show, *channel.board) : nullptr) {
        text = shown(board->name) + ' ';
    }
    text += channel.output ? QString::number(*channel.output) : QStringLiteral("no output");
    return text +
           (channel.contact == Contact::normally_open ? QStringLiteral(", NO") : QStringLiteral(", NC"));
}

void paint_label(QPainter& painter, const PicturePage& page, const QRectF& lane, const QString& name,
                 const QString& second) {
    if (lane.height() < one_line_px) {
        return;
    }
    const QRectF box = page.label_of(lane).adjusted(30, 0, -8, 0);
    const bool both = lane.height() >= two_lines_px && !second.isEmpty();
    const double middle = lane.center().y();
    draw_text(painter, both ? QRectF(box.left(), middle - 16, box.width(), 17) : box,
              {font(TypeSize::body, true), page.colours.text}, name);
    if (both) {
        draw_text(painter, {box.left(), middle + 1, box.width(), 14},
                  {font(TypeSize::small), page.colours.text_soft}, second);
    }
}

QString sound_word(const PicturePage& page, const Lane& lane) {
    return sound_lanes(page.content.sequence) == 1 ? QStringLiteral("sound")
                                                   : QStringLiteral("sound %1").arg(lane.sound_lane);
}

void paint_channel_label(QPainter& painter, const PicturePage& page, const PictureLane& lane) {
    const Channel* channel = find(page.content.show, lane.lane.channel);
    if (channel == nullptr) {
        return;
    }
    const double side = std::min(16.0, lane.box.height() - 2);
    paint_kind(painter, {lane.box.left() + 6, lane.box.center().y() - side / 2, side, side}, channel->kind,
               page.colours.kind_edge(channel->kind));
    paint_label(painter, page, lane.box, shown(channel->name), wiring_of(page.content.show, *channel));
}

}  // namespace

void paint_lane_grounds(QPainter& painter, const PicturePage& page) {
    bool soft = false;
    for (const PictureLane& lane : page.lanes) {
        painter.fillRect(lane.box, soft ? page.colours.canvas_soft : page.colours.canvas);
        soft = !soft;
    }
}

void paint_lanes(QPainter& painter, const PicturePage& page) {
    for (const PictureLane& lane : page.lanes) {
        switch (lane.lane.kind) {
            case Lane::Kind::sound:
                paint_label(painter, page, lane.box, sound_word(page, lane.lane), {});
                paint_sound_lane(painter, page, lane);
                break;
            case Lane::Kind::channel:
                paint_channel_label(painter, page, lane);
                paint_channel_lane(painter, page, lane);
                break;
            case Lane::Kind::pressure:
                paint_label(painter, page, lane.box, QStringLiteral("receiver"),
                            QStringLiteral("gauge pressure"));
                paint_pressure_lane(painter, page, page.plot_of(lane.box));
                break;
        }
        painter.fillRect(QRectF(lane.box.left(), lane.box.bottom() - 1, lane.box.width(), 1),
                         page.colours.rule);
    }
    if (page.lanes.empty()) {
        return;
    }
    const double top = page.lanes.front().box.top();
    const double bottom = page.lanes.back().box.bottom();
    painter.fillRect(QRectF(page.left() - 1, top, 1, bottom - top), page.colours.rule_strong);
    const double end = page.x_of(page.content.sequence.length);
    if (end < page.right() && end >= page.left()) {
        QColor veil = page.colours.ground;
        veil.setAlpha(150);
        painter.fillRect(QRectF(end, top, page.right() - end, bottom - top), veil);
        painter.fillRect(QRectF(end - 0.5, top, 1, bottom - top), page.colours.rule_strong);
    }
}

}  // namespace gasp
