// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/air_model.hpp"
#include "core/schedule/sequence_run.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace gasp {

/// How one figure moves right after its cues were edited, until the sequence is worked out again.
struct MotionPreview {
    ActuatorId actuator;
    MotionCurve motion;
    std::vector<Stroke> strokes;  ///< in the order of the commands
    std::vector<Dwell> ahead;     ///< where `motion` is not that of the last run; in order
    std::size_t simulated = 0;    ///< strokes
    bool whole = true;            ///< else more changed than is simulated at once, and stands still
};

/// `cues` are those of this figure alone, each placed by its start; `last` is an earlier run of the sequence.
/// A stroke whose commands are the same in both keeps its motion. The others, `most_strokes` at most, are
/// simulated alone, the receiver as high as it was in `last` at the first of them: what they take from other
/// figures, and others from them, only the next run tells. None where `last` was not simulated. Takes about
/// as long as those strokes.
[[nodiscard]] std::optional<MotionPreview> preview_motion(const Show& show, const Sequence& cues,
                                                          ActuatorId actuator, const SequenceRun& last,
                                                          const AirModel& model,
                                                          std::size_t most_strokes = 24);

}  // namespace gasp
