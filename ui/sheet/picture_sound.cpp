// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/clip_gain.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>
#include <QPolygonF>

#include <algorithm>
#include <vector>

namespace gasp {

namespace {

constexpr double columns_a_px = 2.0;
constexpr double full_scale = 32768.0;

/// The peaks of all channels together between two places on the page, one for each column.
std::vector<Peak> peaks_between(const PicturePage& page, const SoundClip& clip, const PeakPyramid& pyramid,
                                const QRectF& box) {
    const double frames_a_us = pyramid.rate() / 1e6;
    const auto frame_at = [&](double x) {
        return static_cast<double>((page.time_at(x) - clip.start + clip.from).count()) * frames_a_us;
    };
    const double first = frame_at(box.left());
    const double step = std::max((frame_at(box.right()) - first) / (box.width() * columns_a_px), 1e-3);
    std::vector<Peak> sum(static_cast<std::size_t>(std::max(box.width() * columns_a_px, 1.0)));
    std::vector<Peak> one(sum.size());
    for (int channel = 0; channel < pyramid.channels(); ++channel) {
        pyramid.columns(channel, first, step, one);
        for (std::size_t column = 0; column < sum.size(); ++column) {
            sum[column].min = std::min(sum[column].min, one[column].min);
            sum[column].max = std::max(sum[column].max, one[column].max);
            sum[column].rms = std::max(sum[column].rms, one[column].rms);
        }
    }
    return sum;
}

/// A column as it is heard, at full scale 1.
struct Shown {
    double least = 0.0;
    double most = 0.0;
    double rms = 0.0;
};

/// The peaks by the gain and the fades of the clip.
std::vector<Shown> shown_at(const PicturePage& page, const SoundClip& clip, const QRectF& box,
                            const std::vector<Peak>& peaks) {
    const ClipGain gain(clip, 1'000'000);
    std::vector<Shown> shown;
    shown.reserve(peaks.size());
    for (const Peak& peak : peaks) {
        const double x = box.left() + (static_cast<double>(shown.size()) + 0.5) / columns_a_px;
        const double factor = static_cast<double>(gain.at(page.time_at(x).count())) / full_scale;
        shown.push_back({peak.min * factor, peak.max * factor, peak.rms * factor});
    }
    return shown;
}

/// A band about the middle, from the lower to the upper value of each column.
template <class Upper, class Lower>
QPolygonF band(const QRectF& box, const std::vector<Shown>& columns, const Upper& upper, const Lower& lower) {
    const double middle = box.center().y();
    const double half = box.height() / 2;
    QPolygonF shape;
    const auto add = [&](std::size_t column, double value) {
        const double x = box.left() + (static_cast<double>(column) + 0.5) / columns_a_px;
        shape << QPointF(x, middle - std::clamp(value, -1.0, 1.0) * half);
    };
    for (std::size_t column = 0; column < columns.size(); ++column) {
        add(column, upper(columns[column]));
    }
    for (std::size_t column = columns.size(); column-- > 0;) {
        add(column, lower(columns[column]));
    }
    return shape;
}

void paint_waveform(QPainter& painter, const PicturePage& page, const SoundClip& clip,
                    const PeakPyramid& pyramid, const QRectF& box) {
    const std::vector<Peak> peaks = peaks_between(page, clip, pyramid, box);
    const std::vector<Shown> shown = shown_at(page, clip, box, peaks);
    painter.setPen(Qt::NoPen);
    painter.setBrush(page.colours.sound);
    painter.drawPolygon(band(
        box, shown, [](const Shown& it) { return it.most; }, [](const Shown& it) { return it.least; }));
    painter.setBrush(page.colours.sound_core);
    painter.drawPolygon(band(
        box, shown, [](const Shown& it) { return std::min(it.rms, it.most); },
        [](const Shown& it) { return std::max(-it.rms, it.least); }));
}

/// On a ground of its own: the lines of ruler and marks pass behind it.
void paint_name(QPainter& painter, const PicturePage& page, QRectF box, const QString& name) {
    const TextStyle style{font(TypeSize::small), page.colours.text_soft};
    box.setWidth(std::clamp(text_width(style.font, name) + 1, 0.0, std::max(box.width(), 0.0)));
    painter.fillRect(box.adjusted(-2, 0, 2, 0), page.colours.canvas);
    draw_text(painter, box, style, name);
}

void paint_clip(QPainter& painter, const PicturePage& page, const SoundClip& clip, const QRectF& lane) {
    const double left = std::max(page.x_of(clip.start), page.left());
    const double right = std::min(page.x_of(clip.start + clip.length), page.right());
    if (right <= left) {
        return;
    }
    const QRectF box(left, lane.top() + 4, right - left, lane.height() - 9);
    painter.setPen(QPen(page.colours.rule, 1));
    painter.setBrush(Qt::NoBrush);
    painter.drawRoundedRect(box, 3, 3);
    const auto found = page.content.peaks.find(clip.id);
    const bool named = box.height() > 36;
    const QRectF wave = box.adjusted(1, named ? 16 : 2, -1, -2);
    if (found != page.content.peaks.end() && found->second != nullptr) {
        paint_waveform(painter, page, clip, *found->second, wave);
    }
    if (named) {
        const std::size_t slash = clip.file.rfind('/');
        const std::string name = slash == std::string::npos ? clip.file : clip.file.substr(slash + 1);
        paint_name(painter, page, {box.left() + 6, box.top() + 2, box.width() - 12, 14}, shown(name));
    }
}

}  // namespace

void paint_sound_lane(QPainter& painter, const PicturePage& page, const PictureLane& lane) {
    const QRectF plot = page.plot_of(lane.box);
    for (const SoundClip& clip : page.content.sequence.clips) {
        if (lane.lane.holds(clip)) {
            paint_clip(painter, page, clip, plot);
        }
    }
    if (page.content.sequence.clips.empty()) {
        draw_text(painter, plot.adjusted(24, 0, 0, 0), {font(TypeSize::small), page.colours.text_soft},
                  QStringLiteral("no sound"));
    }
}

}  // namespace gasp
