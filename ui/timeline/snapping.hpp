// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "ui/editor/moments.hpp"
#include "ui/timeline/lane_index.hpp"
#include "ui/timeline/lane_layout.hpp"
#include "ui/timeline/ticks.hpp"
#include "ui/timeline/view_transform.hpp"

#include <QString>

#include <optional>
#include <span>

namespace gasp {

/// What an edge snapped to: a time on the ruler, and a word for it.
struct Snap {
    Micros time{0};
    Micros shift{0};  ///< what to add to the edge to bring it there
    QString word;
    std::optional<MarkId> mark;
};

/// What may be snapped to, beside the cues.
struct SnapPlaces {
    const Sequence& sequence;
    const LaneIndex& cues;
    const LaneLayout& lanes;
    const ViewTransform& view;
    Micros playhead{0};
    Grid grid{};
    TickScale ticks{};                       ///< that are drawn; of 0, none are
    std::span<const SoundMoment> moments{};  ///< by time
};

/// The nearest thing within 8 px of any of `edges`, marks before the playhead before sound before cues
/// before moments in the sound where they lie as near; else a tick of the grid within 3 px, or else a frame
/// or beat between ticks as near. Cues, marks and clips in `without` (what is dragged) do not count. Looks
/// only at what lies near the edges.
struct SnapWithout {
    std::span<const CueId> cues;  ///< in order of id
    std::optional<MarkId> mark;
    std::optional<ClipId> clip;
};
[[nodiscard]] std::optional<Snap> snap(const SnapPlaces& places, std::span<const Micros> edges,
                                       const SnapWithout& without);

}  // namespace gasp
