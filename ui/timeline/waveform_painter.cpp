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
    if (paint.box.isEmpty()) {
        return;
    }
    measure(peaks, paint);
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
