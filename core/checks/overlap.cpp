// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/words_of_cues.hpp"

#include <algorithm>

namespace gasp {

void find_overlaps(ChannelId channel, std::span<const CueSpan> together, std::vector<CueFault>& faults) {
    const CueSpan* longest = nullptr;  // the one that ends last so far
    for (const CueSpan& span : together) {
        if (longest != nullptr && span.begin < longest->end) {
            const Micros shared = std::min(longest->end, span.end) - span.begin;
            faults.push_back({CueFaultKind::overlap,
                              channel,
                              {},
                              longest->cue,
                              span.cue,
                              span.begin,
                              shared,
                              Micros{0},
                              false});
        }
        if (longest == nullptr || span.end > longest->end) {
            longest = &span;
        }
    }
}

Finding word_overlap(const Show& show, const Sequence& sequence, const CueFault& fault) {
    Finding finding = about(sequence, fault, "overlap", Severity::warn);
    const Cue& first = *find(sequence, fault.cue);
    const Cue& second = *find(sequence, fault.other_cue);
    finding.what = capital(named(first)) + " and " + named(second) + " overlap on channel " +
                   quoted(find(show, fault.channel)->name);
    finding.figure = print_duration(fault.figure);
    finding.limit = "none";
    const Micros end_of_first = start_of(sequence, first) + first.length;
    const Micros end_of_second = start_of(sequence, second) + second.length;
    if (end_of_second <= end_of_first) {
        finding.remedy = "Remove " + named(second) + ", which " + named(first) + " covers whole";
    } else {
        finding.remedy = "Start " + named(second) + " " + print_duration(fault.figure) + " later";
    }
    return finding;
}

std::vector<Finding> check_overlap(const CheckInput& input) {
    return worded(input, [](CueFaultKind kind) { return kind == CueFaultKind::overlap; });
}

}  // namespace gasp
