// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lanes_image.hpp"

#include "core/sound/clip_gain.hpp"
#include "ui/editor/analysis.hpp"
#include "ui/editor/document.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/timeline/hit.hpp"
#include "ui/timeline/moment_painter.hpp"
#include "ui/timeline/waveforms.hpp"

#include <QFontMetricsF>
#include <QPainter>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double least_sign_px = 40.0;
constexpr double sign_px = 12.0;
constexpr int most_texts = 4000;

void fill_columns(std::vector<QRgb>& row, int begin, int end, QRgb colour) {
    const int from = std::clamp(begin, 0, static_cast<int>(row.size()));
    const int to = std::clamp(end, from, static_cast<int>(row.size()));
    std::fill(row.begin() + from, row.begin() + to, colour);
}

}  // namespace

LanesImage::LanesImage(const Scene& scene) : scene_(scene), channels_(scene) {}

void LanesImage::resize(QSize logical, double scale) {
    const QSize device = (QSizeF(logical) * scale).toSize();
    if (image_.size() != device || scale != scale_) {
        image_ = QImage(device, QImage::Format_RGB32);
        scale_ = scale;
        all_dirty_ = true;
    }
}

void LanesImage::dirty_all() {
    all_dirty_ = true;
}

void LanesImage::dirty(ChannelId channel) {
    const Lane* lane = scene_.lanes().of(channel);
    if (lane != nullptr && dirty_.size() == scene_.lanes().lanes().size()) {
        dirty_[scene_.lanes().index_of(*lane)] = 1;
    }
}

void LanesImage::dirty(Lane::Kind kind) {
    const auto& lanes = scene_.lanes().lanes();
    for (std::size_t i = 0; i < std::min(lanes.size(), dirty_.size()); ++i) {
        if (lanes[i].kind == kind) {
            dirty_[i] = 1;
        }
    }
}

void LanesImage::forget_curves() {
    travel_.clear();
}

void LanesImage::forget_curve(ChannelId channel) {
    const Lane* lane = scene_.lanes().of(channel);
    if (lane == nullptr || !lane->travel) {
        return;
    }
    travel_.erase(*lane->travel);
    for (const Lane& other : scene_.lanes().lanes()) {
        if (other.travel == lane->travel) {
            dirty(other.channel);
        }
    }
}

int LanesImage::column_of(Micros time) const {
    return ColumnScale(scene_.view(), scale_)(time);
}

QRect LanesImage::device_box(const Lane& lane, int top_gap, int bottom_gap) const {
    const double top = (scene_.top_of(lane) + top_gap) * scale_;
    const double bottom = (scene_.top_of(lane) + lane.height - bottom_gap) * scale_;
    return {0, static_cast<int>(std::lround(top)), image_.width(),
            static_cast<int>(std::lround(bottom - top))};
}

const QImage& LanesImage::fresh() {
    if (image_.isNull()) {
        return image_;
    }
    const auto& lanes = scene_.lanes().lanes();
    if (dirty_.size() != lanes.size()) {
        all_dirty_ = true;
    }
    if (all_dirty_) {
        dirty_.assign(lanes.size(), 1);
        make_background();
    }
    const Lane* pinned = scene_.pinned();
    const int foot = pinned != nullptr ? device_box(*pinned, 0, 0).top() : image_.height();
    for (std::size_t i = 0; i < lanes.size(); ++i) {
        const QRect box = device_box(lanes[i], 0, 0);
        const int end = &lanes[i] == pinned ? image_.height() : foot;
        if (dirty_[i] != 0 && box.bottom() >= 0 && box.top() < end) {
            paint_lane(lanes[i]);
            // The pinned lane is the last: what reached into it is painted over.
            dirty_.back() |= static_cast<std::uint8_t>(box.bottom() >= foot);
        }
        dirty_[i] = 0;
    }
    if (all_dirty_) {
        const int below =
            static_cast<int>(std::lround((scene_.lanes().height() - scene_.scroll_y()) * scale_));
        if (below < image_.height()) {
            const QRect rest(0, std::max(below, 0), image_.width(), image_.height() - std::max(below, 0));
            QPainter(&image_).fillRect(rest, look().ground);
        }
    }
    paint_labels();
    all_dirty_ = false;
    return image_;
}

void LanesImage::make_background() {
    const Palette& p = look();
    const Sequence& sequence = scene_.document().sequence();
    background_.assign(static_cast<std::size_t>(image_.width()), p.canvas.rgb());
    const QRgb plain = mixed(p.canvas, p.rule, 0.35).rgb();
    for (const Tick& tick : scene_.ticks_from(scene_.view().left())) {
        const int x = column_of(tick.time);
        fill_columns(background_, x, x + 1, tick.labelled ? p.rule.rgb() : plain);
    }
    if (scene_.loop()) {
        const QRgb tint = mixed(p.canvas, p.brass, 0.12).rgb();
        const Columns loop{column_of(scene_.loop()->begin), column_of(scene_.loop()->end)};
        fill_columns(background_, loop.begin, loop.end, tint);
    }
    fill_columns(background_, 0, column_of(Micros{0}), p.ground.rgb());
    fill_columns(background_, column_of(sequence.length), image_.width(), p.ground.rgb());
    const int end = column_of(sequence.length);
    fill_columns(background_, end, end + 1, p.rule_strong.rgb());
    for (const Mark& mark : sequence.marks) {
        const int x = column_of(mark.time);
        const bool selected = scene_.document().selection().mark == mark.id;
        fill_columns(background_, x, x + 1, (selected ? p.brass : mixed(p.canvas, p.brass, 0.6)).rgb());
    }
}

void LanesImage::paint_lane(const Lane& lane) {
    switch (lane.kind) {
        case Lane::Kind::channel:
            paint_channel(lane);
            break;
        case Lane::Kind::sound:
            paint_sound(lane);
            break;
        case Lane::Kind::pressure:
            paint_pressure(lane);
            break;
    }
}

void LanesImage::paint_channel(const Lane& lane) {
    const QRect box = device_box(lane, 0, 0);
    channels_.paint(lane, image_, box.top(), box.height(), background_, scale_);
    if (lane.travel) {
        paint_travel(lane);
    }
}

void LanesImage::paint_sound(const Lane& lane) {
    const QRect box = device_box(lane, 0, 0);
    lane_painter_.paint_empty(image_, box.top(), box.height(), scale_, background_, look().rule.rgb());
    for (const SoundClip& clip : scene_.document().sequence().clips) {
        if (lane.holds(clip) && clip.start <= scene_.view().right() &&
            clip.start + clip.length >= scene_.view().left()) {
            paint_clip(lane, clip);
        }
    }
    QPainter painter(&image_);
    painter.scale(scale_, scale_);
    const double top = scene_.top_of(lane);
    if (lane.sound_lane == 1) {
        paint_moments(painter, scene_.moments().shown(scene_.document().sequence()), scene_.view(), top + 19,
                      top + lane.height - 6);
    }
}

std::vector<float> LanesImage::gains_of(const SoundClip& clip, int from, int to) const {
    const ClipGain gain(clip, 1'000'000);
    const auto time_of = [this](int column) {
        return scene_.view().time_at((column + 0.5) / scale_).count();
    };
    if (from >= to || gain.even(time_of(from), time_of(to - 1))) {
        return {gain.at(time_of((from + to) / 2))};
    }
    std::vector<float> gains;
    for (int column = from; column < to; ++column) {
        gains.push_back(gain.at(time_of(column)));
    }
    return gains;
}

/// From the samples where the bins of the peaks are wider than a column.
void LanesImage::paint_wave(const SoundClip& clip, const PeakPyramid& peaks, const WaveformPaint& paint) {
    if (paint.frames_per_px < static_cast<double>(PeakPyramid::bin_frames) && !paint.box.isEmpty()) {
        const auto first = static_cast<std::int64_t>(paint.first_frame) - 1;
        const auto frames = static_cast<std::int64_t>(paint.box.width() * paint.frames_per_px) + 3;
        const auto samples =
            scene_.waveforms().samples(clip, std::clamp<std::int64_t>(first, 0, peaks.frames()),
                                       std::min(first + frames, peaks.frames()));
        if (samples && !samples->samples.empty()) {
            waveform_painter_.paint(image_, *samples, paint);
            return;
        }
    }
    waveform_painter_.paint(image_, peaks, paint);
}

void LanesImage::paint_clip(const Lane& lane, const SoundClip& clip) {
    const Palette& p = look();
    const QRectF area = box_of(scene_, clip);
    const double left = area.left();
    const double top = scene_.top_of(lane);
    const bool selected = scene_.document().selection().clip == clip.id;
    QPainter painter(&image_);
    painter.scale(scale_, scale_);
    painter.fillRect(area, mixed(p.canvas, p.sound, 0.16));
    painter.end();

    const auto peaks = scene_.waveforms().peaks(clip);
    if (peaks) {
        const int from = std::max(column_of(clip.start), 0);
        const int to = std::min(column_of(clip.start + clip.length), image_.width());
        WaveformPaint paint;
        paint.box = device_box(lane, 18, 7);
        paint.box.setLeft(from);
        paint.box.setWidth(std::max(to - from, 0));
        const double frames_per_us = peaks->rate() / 1e6;
        const double time =
            (from / scale_ - left) * scene_.view().us_per_px() + static_cast<double>(clip.from.count());
        paint.first_frame = time * frames_per_us;
        paint.frames_per_px = scene_.view().us_per_px() / scale_ * frames_per_us;
        paint.gains = gains_of(clip, from, to);
        paint.envelope = p.sound.rgb();
        paint.core = p.sound_core.rgb();
        paint.provisional = p.sound.rgb();
        paint.clipped = p.stop.rgb();
        paint_wave(clip, *peaks, paint);
    }

    QPainter over(&image_);
    over.scale(scale_, scale_);
    over.setPen(QPen(selected ? p.text : p.sound, selected ? 2 : 1));
    over.drawRect(area.adjusted(0.5, 0.5, -0.5, -0.5));
    paint_fades(over, clip, selected);
    const QString problem = scene_.waveforms().problem(clip);
    over.setFont(font(TypeSize::small));
    over.setPen(problem.isEmpty() ? p.text : p.stop_text);
    const QString name = QString::fromStdString(clip.file) + (problem.isEmpty() ? QString() : ": " + problem);
    const QRectF seen = area.intersected(QRectF(0, top, scene_.view().width(), lane.height));
    const QRectF line(seen.left() + 6, top + 5, seen.width() - 12, 14);
    over.drawText(line, Qt::AlignLeft | Qt::AlignVCenter,
                  QFontMetricsF(over.font())
                      .elidedText(name, problem.isEmpty() ? Qt::ElideMiddle : Qt::ElideRight, line.width()));
}

void LanesImage::paint_fades(QPainter& painter, const SoundClip& clip, bool selected) const {
    const Palette& p = look();
    const QRectF box = box_of(scene_, clip).adjusted(0.5, 0.5, -0.5, -0.5);
    const double in = scene_.view().px_of(clip.fade_in);
    const double out = scene_.view().px_of(clip.fade_out);
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen(selected ? p.text : p.sound, 1));
    if (in > 0) {
        painter.drawLine(box.bottomLeft(), QPointF(box.left() + in, box.top()));
    }
    if (out > 0) {
        painter.drawLine(QPointF(box.right() - out, box.top()), box.bottomRight());
    }
    if (selected) {
        const FadeHandles handles = fade_handles(scene_, clip);
        painter.setBrush(p.brass);
        for (const QPointF& handle : {handles.in, handles.out}) {
            painter.drawPolygon(
                QPolygonF{handle + QPointF(-4, -4), handle + QPointF(4, -4), handle + QPointF(0, 4)});
        }
        painter.setBrush(Qt::NoBrush);
    }
    painter.setRenderHint(QPainter::Antialiasing, false);
}

void LanesImage::paint_labels() {
    if (channels_.labels().empty()) {
        return;
    }
    QPainter painter(&image_);
    painter.scale(scale_, scale_);
    if (scene_.pinned() != nullptr) {
        painter.setClipRect(QRectF(0, 0, scene_.view().width(), scene_.scrolling_px()));
    }
    painter.setFont(font(TypeSize::small));
    if (texts_.size() > most_texts) {
        texts_.clear();
    }
    for (const CueLabel& label : channels_.labels()) {
        paint_label(painter, label);
    }
    channels_.forget_labels();
}

void LanesImage::paint_label(QPainter& painter, const CueLabel& label) {
    QStaticText& text = texts_[label.text];
    if (text.text().isEmpty()) {
        text.setTextFormat(Qt::PlainText);
        text.setText(label.text);
        text.prepare({}, painter.font());
    }
    painter.setPen(label.ink);
    if (label.tied) {
        const QPointF corner(label.box.left() + 1, label.box.top() + 1);
        painter.setBrush(label.ink);
        painter.drawPolygon(QPolygonF{corner, corner + QPointF(5, 0), corner + QPointF(0, 5)});
    }
    double x = label.box.left() + 7;
    double room = label.box.right() - 6 - x;
    if (room >= sign_px + 5 + text.size().width() || (label.named && room >= least_sign_px)) {
        const QRectF box(x, std::round(label.box.center().y() - sign_px / 2), sign_px, sign_px);
        paint_kind(painter, box, label.kind, label.ink);
        x += sign_px + 5;
        room -= sign_px + 5;
    }
    const double y = std::round(label.box.center().y() - text.size().height() / 2);
    if (text.size().width() <= room) {
        painter.drawStaticText(QPointF(x, y), text);
    } else if (label.named) {
        const QFontMetricsF metrics(painter.font());
        painter.drawText(QPointF(x, y + metrics.ascent()),
                         metrics.elidedText(label.text, Qt::ElideRight, room));
    }
}

}  // namespace gasp
