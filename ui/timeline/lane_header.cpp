// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_header.hpp"

#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/icons.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/timeline/waveforms.hpp"

#include <QFontMetricsF>
#include <QHelpEvent>
#include <QMouseEvent>
#include <QPainter>
#include <QToolTip>
#include <QWheelEvent>

#include <cmath>

namespace gasp {

namespace {

constexpr int sign_px = 16;
constexpr int words_left = 32;
constexpr int state_px = 10;
constexpr int words_right = 28;
constexpr int least_two_lines_px = 32;

QString missing_motion(const FigureMotion* motion) {
    const bool out = motion == nullptr || motion->out_known;
    const bool back = motion == nullptr || motion->back_known;
    if (out && back) {
        return {};
    }
    return out    ? QObject::tr("no travel: time back is blank")
           : back ? QObject::tr("no travel: time out is blank")
                  : QObject::tr("no travel: stroke times are blank");
}

}  // namespace

LaneHeader::LaneHeader(Scene& scene, QWidget* parent) : QWidget(parent), scene_(scene) {
    setFixedWidth(width_px);
    setAttribute(Qt::WA_OpaquePaintEvent);
    setAccessibleName(tr("Names of the lanes"));
    for (const auto signal : {&Scene::view_changed, &Scene::lanes_changed, &Scene::clips_changed,
                              &Scene::result_changed, &Scene::selection_changed}) {
        connect(&scene_, signal, this, qOverload<>(&QWidget::update));
    }
    connect(&scene_, &Scene::playhead_moved, this, &LaneHeader::playhead_moved);
}

std::vector<bool> LaneHeader::driven() const {
    std::vector<bool> states;
    for (const Lane& lane : scene_.lanes().lanes()) {
        states.push_back(driven_at(scene_.dwells_of(lane.channel), scene_.playhead()));
    }
    return states;
}

void LaneHeader::playhead_moved() {
    if (driven() != shown_driven_) {
        update();
    }
}

void LaneHeader::changeEvent(QEvent* event) {
    if (event->type() == QEvent::PaletteChange) {
        update();
    }
    QWidget::changeEvent(event);
}

void LaneHeader::paintEvent(QPaintEvent*) {
    QPainter painter(this);
    painter.fillRect(rect(), look().ground);
    shown_driven_ = driven();
    for (const Lane& lane : scene_.lanes().lanes()) {
        const int top = scene_.top_of(lane);
        if (top < height() && top + lane.height > 0) {
            paint_lane(painter, lane);
        }
    }
    painter.setPen(look().rule_strong);
    painter.drawLine(width() - 1, 0, width() - 1, height());
}

void LaneHeader::paint_lane(QPainter& painter, const Lane& lane) const {
    const QRectF box(0, scene_.top_of(lane), width() - 1, lane.height);
    if (&lane == scene_.pinned()) {
        painter.fillRect(box, look().ground);
        painter.fillRect(QRectF(box.left(), box.top(), box.width(), 1), look().rule_strong);
    }
    const bool selected =
        lane.kind == Lane::Kind::channel && scene_.document().selection().channel == lane.channel;
    if (selected) {
        painter.fillRect(box.adjusted(0, 0, 0, -1), look().selection);
        painter.fillRect(QRectF(box.left(), box.top(), 3, box.height() - 1), look().brass);
    }
    painter.fillRect(QRectF(box.left(), box.bottom() - 1, box.width(), 1), look().rule);
    switch (lane.kind) {
        case Lane::Kind::channel:
            paint_channel(painter, lane, box);
            break;
        case Lane::Kind::sound:
            paint_sound(painter, lane, box);
            break;
        case Lane::Kind::pressure:
            paint_pressure(painter, box);
            break;
    }
}

QString LaneHeader::remark(const Lane& lane) const {
    const Show& show = scene_.document().show();
    const Channel* channel = gasp::find(show, lane.channel);
    if (channel == nullptr) {
        return {};
    }
    QStringList words;
    if (channel->contact == Contact::normally_closed) {
        words << tr("NC: load on at rest");
    }
    if (channel->kind == ChannelKind::valve) {
        const Actuator* actuator = channel->actuator ? gasp::find(show, *channel->actuator) : nullptr;
        if (actuator == nullptr) {
            words << tr("no actuator");
        } else if (channel->coil == Coil::back) {
            words << tr("%1, back").arg(QString::fromStdString(actuator->name));
        } else {
            const QString missing =
                missing_motion(scene_.result() ? scene_.result()->air.motion_of(actuator->id) : nullptr);
            words << (missing.isEmpty() ? QString::fromStdString(actuator->name) : missing);
            if (missing.isEmpty() && !is_measured(actuator->fit)) {
                words << tr("not measured");
            }
        }
    }
    return words.join(QStringLiteral(" \u00b7 "));
}

void LaneHeader::paint_words(QPainter& painter, const QRectF& box, const QString& name,
                             const QString& second) const {
    const QRectF words(words_left, box.top(), box.width() - words_left - words_right, box.height() - 1);
    const double middle = std::round(words.center().y());
    const QFont body = gasp::font(TypeSize::body);
    painter.setFont(body);
    painter.setPen(look().text);
    const bool two_lines = !second.isEmpty() && box.height() >= least_two_lines_px;
    const QRectF first = !two_lines ? words : QRectF(words.left(), middle - 16, words.width(), 16);
    painter.drawText(first, Qt::AlignVCenter | Qt::AlignLeft,
                     QFontMetricsF(body).elidedText(name, Qt::ElideRight, first.width()));
    if (two_lines) {
        const QFont small = gasp::font(TypeSize::small);
        painter.setFont(small);
        painter.setPen(look().text_soft);
        const QRectF line(words.left(), middle, box.width() - words_left - 8, 14);
        painter.drawText(line, Qt::AlignVCenter | Qt::AlignLeft,
                         QFontMetricsF(small).elidedText(second, Qt::ElideRight, line.width()));
    }
}

void LaneHeader::paint_channel(QPainter& painter, const Lane& lane, const QRectF& box) const {
    const Channel* channel = gasp::find(scene_.document().show(), lane.channel);
    if (channel == nullptr) {
        return;
    }
    const QColor edge = look().kind_edge(channel->kind);
    const double middle = std::round(box.center().y()) - 0.5;
    paint_kind(painter, QRectF(8, middle - sign_px / 2.0, sign_px, sign_px), channel->kind, edge);
    paint_words(painter, box, QString::fromStdString(channel->name), remark(lane));
    const bool on = driven_at(scene_.dwells_of(channel->id), scene_.playhead());
    const bool one_line = remark(lane).isEmpty() || lane.height < least_two_lines_px;
    const double state_top = one_line ? middle - state_px / 2.0 : middle - 13;
    const QRectF state(box.right() - 8 - state_px, std::round(state_top), state_px, state_px);
    painter.setPen(QPen(on ? edge : look().rule_strong, 1));
    painter.setBrush(on ? QBrush(look().kind(channel->kind)) : QBrush(Qt::NoBrush));
    painter.drawRect(state.adjusted(0.5, 0.5, -0.5, -0.5));
}

void LaneHeader::paint_sound(QPainter& painter, const Lane& lane, const QRectF& box) const {
    icon(Icon::sound).paint(&painter, QRectF(8, box.center().y() - 8.5, sign_px, sign_px).toRect());
    const double done = scene_.waveforms().progress();
    const bool first = lane.sound_lane == 1;
    const QString second =
        first && done < 1.0 ? tr("reading %1 %").arg(static_cast<int>(done * 100)) : QString();
    const bool alone = scene_.lanes().sounds().size() == 1;
    paint_words(painter, box, alone ? tr("Sound") : tr("Sound %1").arg(lane.sound_lane), second);
}

void LaneHeader::paint_pressure(QPainter& painter, const QRectF& box) const {
    icon(Icon::air).paint(&painter, QRectF(8, box.center().y() - 8.5, sign_px, sign_px).toRect());
    const auto result = scene_.result();
    QString second;
    if (result && !result->air.receiver_missing.empty()) {
        QStringList missing;
        for (const BlankField& field : result->air.receiver_missing) {
            missing << QString::fromStdString(field.label);
        }
        second = tr("blank: %1").arg(missing.join(", "));
    }
    paint_words(painter, box, tr("Receiver pressure"), second);
}

void LaneHeader::mousePressEvent(QMouseEvent* event) {
    const Lane* lane = scene_.lane_at(event->position().y());
    if (lane != nullptr && lane->kind == Lane::Kind::channel) {
        Selection selection = scene_.document().selection();
        selection.channel = lane->channel;
        scene_.document().select(std::move(selection));
    }
}

void LaneHeader::wheelEvent(QWheelEvent* event) {
    scene_.set_scroll_y(scene_.scroll_y() - event->angleDelta().y() * LaneLayout::channel_px / 60);
    event->accept();
}

bool LaneHeader::event(QEvent* event) {
    if (event->type() != QEvent::ToolTip) {
        return QWidget::event(event);
    }
    auto* help = static_cast<QHelpEvent*>(event);
    const Lane* lane = scene_.lane_at(help->pos().y());
    const Channel* channel = lane != nullptr ? gasp::find(scene_.document().show(), lane->channel) : nullptr;
    if (channel != nullptr) {
        const QString second = remark(*lane);
        QToolTip::showText(help->globalPos(),
                           QString::fromStdString(channel->name) + " (" + kind_word(channel->kind) + ")" +
                               (second.isEmpty() ? QString() : "\n" + second),
                           this);
    } else {
        QToolTip::hideText();
    }
    return true;
}

}  // namespace gasp
