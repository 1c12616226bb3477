// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/schedule.hpp"
#include "core/schedule/ticks.hpp"
#include "core/show/show.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <unordered_map>
#include <vector>

namespace gasp {

// The step between cues and schedule: every cue put on its channel's tick and cut to the sequence. The
// schedule is made of these spans, and so are the checks of cues, which therefore see exactly what will be
// played.

/// One cue on its channel, [begin, end), never empty: a cue that vanishes in the tick has no span.
struct CueSpan {
    Micros begin{0};
    Micros end{0};
    CueId cue;
    bool flashing = false;
    bool operator==(const CueSpan&) const = default;
};

/// What it takes to lay out the flashes of a cue.
struct FlashingCue {
    Micros start{0};
    Micros length{0};
    Flashes flashes;
};

/// A cue with its start on the ruler.
struct StartedCue {
    const Cue& cue;
    Micros start;
};

/// The spans of one channel, by begin and then by cue.
struct ChannelSpans {
    ChannelId channel;
    Micros tick{1000};
    Micros last_tick{0};  ///< the latest moment on its tick within the sequence
    std::vector<CueSpan> spans;
};

struct SequenceSpans {
    std::vector<ChannelSpans> channels;  ///< in the order of the rig
    std::unordered_map<CueId, FlashingCue> flashing;
    std::size_t flashes = 0;   ///< wanted by all flashing cues together
    std::size_t vanished = 0;  ///< cues shorter than a tick that have no span
    Micros largest_rounding{0};
};

[[nodiscard]] SequenceSpans cue_spans(const Show& show, const Sequence& sequence);

/// resolve (schedule.hpp) from the spans of that sequence, for those who need these themselves.
[[nodiscard]] Schedule resolve(const Show& show, const Sequence& sequence, const SequenceSpans& all);

/// The span of a cue on this channel; empty when it lies outside the sequence or vanishes in the tick.
[[nodiscard]] std::optional<CueSpan> span_of(const ChannelSpans& channel, const StartedCue& placed);

/// How many flashes a cue wants over its length; 0 when it is steady.
[[nodiscard]] std::size_t flashes_wanted(const Cue& cue);

/// The most flashes any one cue of a sequence may have: no bound in practice, but a sequence that wants more
/// than `most_flashes` shares them out among its flashing cues.
[[nodiscard]] std::size_t flash_allowance(std::size_t flashes, std::size_t flashing_cues);
inline constexpr std::size_t most_flashes = 2'000'000;

/// A driven stretch, and the cues that begin and end it.
struct OwnedDwell {
    Dwell dwell;
    CueId first;
    CueId last;
};

/// What rounding did while dwells were laid out.
struct RoundingNotes {
    Micros largest{0};
    std::size_t lost = 0;
};

/// The dwells of spans that hang together (each begins before or where the ones before it end), joined where
/// they overlap or touch. `for_each_dwell` (clusters.hpp) spares the vector where there is but one.
[[nodiscard]] std::vector<OwnedDwell> joined_dwells(const SequenceSpans& all, const ChannelSpans& channel,
                                                    std::span<const CueSpan> together, RoundingNotes& notes);

}  // namespace gasp
