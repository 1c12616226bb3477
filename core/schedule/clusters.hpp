// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/cue_spans.hpp"

#include <algorithm>
#include <cstddef>
#include <span>

namespace gasp {

/// Calls `take(first, last)` for each run of spans that hang together: every one begins before or where those
/// before it end. Between two runs the channel rests for a tick at least.
template <class Take>
void for_each_cluster(std::span<const CueSpan> spans, Take take) {
    std::size_t first = 0;
    while (first < spans.size()) {
        Micros reach = spans[first].end;
        std::size_t last = first + 1;
        while (last < spans.size() && spans[last].begin <= reach) {
            reach = std::max(reach, spans[last].end);
            ++last;
        }
        take(first, last);
        first = last;
    }
}

/// Calls `take` with each dwell of a run of spans that hang together, joined where they overlap or touch.
template <class Take>
void for_each_dwell(const SequenceSpans& all, const ChannelSpans& channel, std::span<const CueSpan> together,
                    RoundingNotes& notes, Take take) {
    const CueSpan& first = together.front();
    if (together.size() == 1 && !first.flashing) {
        take(OwnedDwell{{first.begin, first.end}, first.cue, first.cue});
        return;
    }
    for (const OwnedDwell& dwell : joined_dwells(all, channel, together, notes)) {
        take(dwell);
    }
}

}  // namespace gasp
