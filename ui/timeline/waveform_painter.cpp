// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/waveform_painter.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double full_scale = 32768.0;
constexpr double least_clipped = 32767.0;  // as loud as 16 bits get
constexpr int clipped_rows = 3;
/// So far apart, samples are drawn as points.
constexpr double least_point_px = 6.0;
constexpr int point_px = 3;

void paint_points(QImage& image, const SoundWindow& window, int channel, const WaveformPaint& paint) {
    const double middle = paint.box.top() + paint.box.height() / 2.0;
    const double last = paint.first_frame + paint.box.width() * paint.frames_per_px;
    auto frame = std::max(window.first, static_cast<std::int64_t>(std::ceil(paint.first_frame)));
    for (; frame < std::min(window.end(), static_cast<std::int64_t>(std::floor(last)) + 1); ++frame) {
        const double column = (static_cast<double>(frame) - paint.first_frame) / paint.frames_per_px;
        const auto nearest = std::min(static_cast<std::size_t>(column), paint.gains.size() - 1);
        const auto place = static_cast<std::size_t>((frame - window.first) * window.channels + channel);
        const double height =
            paint.gains[nearest] * window.samples[place] / full_scale * paint.box.height() / 2;
        const QPoint at(paint.box.left() + static_cast<int>(column),
                        static_cast<int>(std::lround(middle - height)));
        const QRect point = QRect(at.x() - point_px / 2, at.y() - point_px / 2, point_px, point_px) &
                            paint.box & image.rect();
        for (int y = point.top(); y <= point.bottom(); ++y) {
            QRgb* row = reinterpret_cast<QRgb*>(image.scanLine(y));
            std::fill(row + point.left(), row + point.right() + 1, paint.core);
        }
    }
}

}  // namespace

void WaveformPainter::measure(const PeakPyramid& peaks, const WaveformPaint& paint) {
    const auto columns = static_cast<std::size_t>(paint.box.width());
    loudest_.assign(columns, Peak{});
    peaks_.resize(columns);
    provisional_.assign(columns, 0);
    for (int channel = 0; channel < peaks.channels(); ++channel) {
        peaks.columns(channel, paint.first_frame, paint.frames_per_px, peaks_, provisional_);
        for (std::size_t i = 0; i < columns; ++i) {
            loudest_[i].min = std::min(loudest_[i].min, peaks_[i].min);
            loudest_[i].max = std::max(loudest_[i].max, peaks_[i].max);
            loudest_[i].rms = std::max(loudest_[i].rms, peaks_[i].rms);
        }
    }
    make_bars(paint);
}

void WaveformPainter::make_bars(const WaveformPaint& paint) {
    const std::size_t columns = loudest_.size();
    bars_.resize(columns);
    const double middle = paint.box.top() + paint.box.height() / 2.0;
    double scale = 0.0;
    const auto row = [&](double sample) {
        return std::clamp(static_cast<int>(std::lround(middle - sample * scale)), paint.box.top(),
                          paint.box.bottom() + 1);
    };
    for (std::size_t i = 0; i < columns; ++i) {
        const double gain = paint.gains[std::min(i, paint.gains.size() - 1)];
        scale = gain * paint.box.height() / 2.0 / full_scale;
        const Peak& peak = loudest_[i];
        bars_[i] = {row(peak.max),
                    std::max(row(peak.min), row(peak.max) + 1),
                    row(peak.rms),
                    row(-static_cast<double>(peak.rms)),
                    provisional_[i] != 0,
                    gain * std::max<double>(peak.max, -static_cast<double>(peak.min)) >= least_clipped};
    }
}

void WaveformPainter::paint(QImage& image, const PeakPyramid& peaks, const WaveformPaint& paint) {
    if (!paint.box.isEmpty()) {
        measure(peaks, paint);
        paint_bars(image, paint);
    }
}

void WaveformPainter::paint(QImage& image, const SoundWindow& window, const WaveformPaint& paint) {
    if (paint.box.isEmpty()) {
        return;
    }
    const auto wide = static_cast<std::size_t>(paint.box.width());
    provisional_.assign(wide, 0);
    for (int channel = 0; channel < window.channels; ++channel) {
        loudest_.assign(wide, Peak{});
        columns(window, channel, paint.first_frame, paint.frames_per_px, loudest_);
        make_bars(paint);
        paint_bars(image, paint);
        if (paint.frames_per_px * least_point_px <= 1.0) {
            paint_points(image, window, channel, paint);
        }
    }
}

void WaveformPainter::paint_bars(QImage& image, const WaveformPaint& paint) const {
    const int first = std::max(0, -paint.box.left());
    const int last = std::min(paint.box.width(), image.width() - paint.box.left());
    for (int y = std::max(paint.box.top(), 0); y <= std::min(paint.box.bottom(), image.height() - 1); ++y) {
        QRgb* row = reinterpret_cast<QRgb*>(image.scanLine(y)) + paint.box.left();
        for (int x = first; x < last; ++x) {
            const Bar& bar = bars_[static_cast<std::size_t>(x)];
            if (bar.clipped &&
                (y < paint.box.top() + clipped_rows || y > paint.box.bottom() - clipped_rows)) {
                row[x] = paint.clipped;
                continue;
            }
            if (y < bar.top || y >= bar.bottom) {
                continue;
            }
            if (bar.provisional) {
                row[x] = ((x + y) & 1) != 0 ? paint.provisional : row[x];
            } else {
                row[x] = y >= bar.core_top && y < bar.core_bottom ? paint.core : paint.envelope;
            }
        }
    }
}

}  // namespace gasp
