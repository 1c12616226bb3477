// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/channel_lanes.hpp"
#include "ui/timeline/curve_painter.hpp"
#include "ui/timeline/lane_painter.hpp"
#include "ui/timeline/scene.hpp"
#include "ui/timeline/travel_picture.hpp"
#include "ui/timeline/waveform_painter.hpp"

#include <QHash>
#include <QImage>
#include <QStaticText>

#include <cstddef>
#include <unordered_map>
#include <vector>

class QPainter;

namespace gasp {

/// The picture of all lanes in sight, kept between paints: only lanes marked dirty are composed again. What
/// moves over the lanes (playhead, snap line, rubber band) is not in it.
class LanesImage {
  public:
    explicit LanesImage(const Scene& scene);

    void resize(QSize logical, double scale);
    void dirty_all();
    void dirty(ChannelId channel);
    void dirty(Lane::Kind kind);
    /// The air was worked out anew: travel is laid out again when next painted.
    void forget_curves();
    /// The same of the figure of this channel alone.
    void forget_curve(ChannelId channel);

    /// The picture brought up to date.
    [[nodiscard]] const QImage& fresh();

    /// Cues drawn since it was made: what a test of the cost of a drag counts.
    [[nodiscard]] std::size_t cues_painted() const { return channels_.cues_painted(); }

  private:
    void make_background();
    void paint_lane(const Lane& lane);
    void paint_channel(const Lane& lane);
    void paint_travel(const Lane& lane);
    void paint_sound(const Lane& lane);
    void paint_clip(const Lane& lane, const SoundClip& clip);
    void paint_wave(const SoundClip& clip, const PeakPyramid& peaks, const WaveformPaint& paint);
    void paint_fades(QPainter& painter, const SoundClip& clip, bool selected) const;
    /// By how much a clip is louder at each column from one to before another.
    [[nodiscard]] std::vector<float> gains_of(const SoundClip& clip, int from, int to) const;
    void paint_pressure(const Lane& lane);
    void paint_limits(const Lane& lane, const CurvePaint& paint);
    void paint_late(const Lane& lane);
    void paint_labels();
    void paint_label(QPainter& painter, const CueLabel& label);

    [[nodiscard]] int column_of(Micros time) const;
    [[nodiscard]] QRect device_box(const Lane& lane, int top_gap, int bottom_gap) const;
    [[nodiscard]] const TravelPicture& travel_of(ActuatorId actuator);

    const Scene& scene_;
    QImage image_;
    double scale_ = 1.0;
    bool all_dirty_ = true;
    std::vector<std::uint8_t> dirty_;
    std::vector<QRgb> background_;
    ChannelLanes channels_;
    LanePainter lane_painter_;
    WaveformPainter waveform_painter_;
    std::unordered_map<ActuatorId, TravelPicture> travel_;
    QHash<QString, QStaticText> texts_;
};

}  // namespace gasp
