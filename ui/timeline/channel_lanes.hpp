// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/column_scale.hpp"
#include "ui/timeline/lane_painter.hpp"
#include "ui/timeline/scene.hpp"

#include <QRectF>
#include <QString>

#include <cstddef>
#include <span>
#include <vector>

namespace gasp {

/// The words on a cue that is wide enough for them.
struct CueLabel {
    QRectF box;  ///< logical, on the picture
    QString text;
    QColor ink;
    ChannelKind kind = ChannelKind::other;
    bool tied = false;
    bool named = false;  ///< else it is its length, which is left out rather than cut
};

/// Finds what of a channel's lane is in sight, and paints it.
class ChannelLanes {
  public:
    explicit ChannelLanes(const Scene& scene) : scene_(scene) {}

    /// Into the rows from `top` on of an image, both in device pixels. `background` is one row of it, `scale`
    /// device pixels a logical one.
    void paint(const Lane& lane, QImage& image, int top, int height, std::span<const QRgb> background,
               double scale);

    /// Of the lanes painted since they were last forgotten.
    [[nodiscard]] std::span<const CueLabel> labels() const { return labels_; }
    void forget_labels() { labels_.clear(); }

    /// Cues drawn since it was made.
    [[nodiscard]] std::size_t cues_painted() const { return cues_painted_; }

  private:
    void look_at(const Lane& lane, const ColumnScale& column);
    void add_flashes(CueBox& box, const PlacedCue& placed, const Cue& cue, const ColumnScale& column);
    void add_label(const Lane& lane, const PlacedCue& placed, const Cue& cue);

    const Scene& scene_;
    LanePicture picture_;
    LanePainter painter_;
    std::vector<CueLabel> labels_;
    std::size_t cues_painted_ = 0;
};

}  // namespace gasp
