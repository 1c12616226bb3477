// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/peaks.hpp"
#include "core/sound/sound_window.hpp"

#include <QImage>
#include <QRect>
#include <QRgb>

#include <vector>

namespace gasp {

struct WaveformPaint {
    QRect box;                 ///< device pixels
    double first_frame = 0.0;  ///< at the left of the box
    double frames_per_px = 1.0;
    std::vector<float> gains;  ///< of each column of the box; one for all where there is only one
    QRgb envelope = 0;         ///< least to greatest sample
    QRgb core = 0;             ///< root mean square
    QRgb clipped = 0;          ///< at the edge, where a sample is beyond full scale
    QRgb provisional = 0;      ///< where only the first overview is known: dotted
};

/// Paints the peaks of all channels over one another, row by row. 32-bit images. O(pixels of the box).
class WaveformPainter {
  public:
    void paint(QImage& image, const PeakPyramid& peaks, const WaveformPaint& paint);
    /// The samples themselves, joined to a line for each channel; as points where they are wide enough apart.
    void paint(QImage& image, const SoundWindow& window, const WaveformPaint& paint);

  private:
    /// Device rows of one column: envelope [top, bottom), core [core_top, core_bottom).
    struct Bar {
        int top = 0;
        int bottom = 0;
        int core_top = 0;
        int core_bottom = 0;
        bool provisional = false;
        bool clipped = false;
    };
    void measure(const PeakPyramid& peaks, const WaveformPaint& paint);
    void make_bars(const WaveformPaint& paint);
    void paint_bars(QImage& image, const WaveformPaint& paint) const;

    std::vector<Peak> loudest_;
    std::vector<Peak> peaks_;
    std::vector<std::uint8_t> provisional_;
    std::vector<Bar> bars_;
};

}  // namespace gasp
