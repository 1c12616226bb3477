// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/scene.hpp"

#include <QPointF>
#include <QRectF>

namespace gasp {

/// What lies under a point of the lanes.
struct Hit {
    enum class Part { nothing, body, start_edge, end_edge, strike, fade_in, fade_out };
    Part part = Part::nothing;
    const Lane* lane = nullptr;  ///< also where nothing lies; null below the last lane
    std::optional<CueId> cue;
    std::optional<ClipId> clip;
};

/// The handles of a strike, and of the fades of the selected clip, go before all else. Edges can be grasped
/// some pixels to both sides. Where cues are crowded the one whose body is under the point goes first, a
/// selected one before others, then the one that begins last. Looks only at what lies near the point.
[[nodiscard]] Hit hit(const Scene& scene, QPointF point);

/// The cues of channel lanes that a rectangle on the lanes touches, in order of id.
[[nodiscard]] std::vector<CueId> cues_in(const Scene& scene, const QRectF& rect);

/// Where a cue is drawn, on the lanes; empty when it is gone.
[[nodiscard]] QRectF box_of(const Scene& scene, CueId cue);

/// Where a clip is drawn, on the lanes; empty when its lane is not there.
[[nodiscard]] QRectF box_of(const Scene& scene, const SoundClip& clip);
/// The handles by which its fades are drawn out, at its upper edge.
struct FadeHandles {
    QPointF in;
    QPointF out;
};
[[nodiscard]] FadeHandles fade_handles(const Scene& scene, const SoundClip& clip);

}  // namespace gasp
