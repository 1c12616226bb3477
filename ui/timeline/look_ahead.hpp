// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/motion_preview.hpp"

#include <map>
#include <optional>
#include <span>

namespace gasp {

class Document;
class LaneIndex;

/// How the figures move whose cues were edited since the last run of the sequence: their own strokes
/// simulated at once, all else left to the run that follows. Window thread.
class LookAhead {
  public:
    LookAhead(const Document& document, const LaneIndex& cues) : document_(document), cues_(cues) {}

    /// Cues of these channels changed; `last` is the last run of the sequence looked at, null without one.
    void follow(std::span<const ChannelId> channels, const SequenceRun* last);
    /// There is a newer run, which may still lag behind the document.
    void take(const SequenceRun* last, bool up_to_date);
    /// Another rig or another sequence.
    void clear();

    /// Null for a figure that moves as in the last run.
    [[nodiscard]] const MotionPreview* of(ActuatorId actuator) const;
    /// Strokes simulated since it was made.
    [[nodiscard]] std::size_t strokes_simulated() const { return simulated_; }

  private:
    void look_at(ActuatorId actuator, const SequenceRun& last);
    [[nodiscard]] Sequence cues_of(ActuatorId actuator) const;

    const Document& document_;
    const LaneIndex& cues_;
    std::optional<AirModel> model_;  ///< of the rig as it is
    std::map<ActuatorId, MotionPreview> figures_;
    std::size_t simulated_ = 0;
};

}  // namespace gasp
