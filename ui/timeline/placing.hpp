// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"

#include <optional>
#include <span>

namespace gasp {

/// Where a drag puts cues.
struct Placing {
    Micros by{0};
    std::optional<ChannelId> channel;  ///< onto this lane
    std::optional<CueId> tied;         ///< of the cues, the one that was set on a mark
    std::optional<MarkId> mark;        ///< which
};

/// Cues moved by a drag, as one edit. A tied cue keeps its tie and changes its offset; the one set on a mark
/// is tied to it. None goes before 0: the shift is cut for all alike.
[[nodiscard]] Edit place_cues(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                              const Placing& placing);

/// Cues made longer by `by` (shorter when negative), their starts held; none shorter than 1 ms.
[[nodiscard]] Edit lengthen_cues(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                                 Micros by);

/// The mark nearest to a time; null without marks.
[[nodiscard]] const Mark* nearest_mark(const Sequence& sequence, Micros time);

}  // namespace gasp
