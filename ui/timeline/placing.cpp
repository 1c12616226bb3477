// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/placing.hpp"

#include "core/show/validity.hpp"

#include <algorithm>

namespace gasp {

namespace {

constexpr Micros shortest_cue{1000};

/// The shift, cut so that every cue stays between 0 and the longest sequence.
Micros allowed_shift(const Sequence& sequence, std::span<const CueId> ids, Micros by) {
    Micros earliest = -longest_sequence;
    Micros latest = longest_sequence;
    for (const CueId id : ids) {
        if (const Cue* cue = find(sequence, id)) {
            const Micros start = start_of(sequence, *cue);
            earliest = std::max(earliest, -start);
            latest = std::min(latest, longest_sequence - start - cue->length);
        }
    }
    return std::clamp(by, earliest, std::max(earliest, latest));
}

std::string sentence_of(const Show& show, const Placing& placing, std::size_t count) {
    std::string sentence = count == 1 ? "move cue" : "move " + std::to_string(count) + " cues";
    if (const Channel* channel = placing.channel ? find(show, *placing.channel) : nullptr) {
        sentence += " to \"" + channel->name + "\"";
    }
    return sentence;
}

}  // namespace

Edit place_cues(const Show& show, SequenceId sequence_id, std::span<const CueId> ids,
                const Placing& placing) {
    const Sequence* sequence = find(show, sequence_id);
    if (sequence == nullptr) {
        return {};
    }
    const Micros shift = allowed_shift(*sequence, ids, placing.by);
    InSequence<Cue> change{sequence_id, {}};
    for (const CueId id : ids) {
        const Cue* cue = find(*sequence, id);
        if (cue == nullptr) {
            continue;
        }
        Cue after = *cue;
        after.at += shift;
        after.channel = placing.channel.value_or(cue->channel);
        if (const Mark* mark =
                placing.mark && placing.tied == id ? find(*sequence, *placing.mark) : nullptr) {
            after.at = start_of(*sequence, *cue) + shift - mark->time;
            after.mark = mark->id;
        }
        if (after != *cue) {
            change.exchanges.push_back({*cue, std::move(after), 0, 0});
        }
    }
    if (change.exchanges.empty()) {
        return {};
    }
    return {sentence_of(show, placing, change.exchanges.size()), {std::move(change)}, 0};
}

Edit lengthen_cues(const Show& show, SequenceId sequence_id, std::span<const CueId> ids, Micros by) {
    const Sequence* sequence = find(show, sequence_id);
    InSequence<Cue> change{sequence_id, {}};
    for (const CueId id : ids) {
        const Cue* cue = sequence != nullptr ? find(*sequence, id) : nullptr;
        if (cue == nullptr) {
            continue;
        }
        Cue after = *cue;
        const Micros most = longest_sequence - start_of(*sequence, *cue);
        after.length = std::clamp(cue->length + by, shortest_cue, std::max(most, shortest_cue));
        if (after != *cue) {
            change.exchanges.push_back({*cue, std::move(after), 0, 0});
        }
    }
    if (change.exchanges.empty()) {
        return {};
    }
    return {by > Micros{0} ? "lengthen" : "shorten", {std::move(change)}, 0};
}

const Mark* nearest_mark(const Sequence& sequence, Micros time) {
    const auto found =
        std::min_element(sequence.marks.begin(), sequence.marks.end(), [time](const Mark& a, const Mark& b) {
            return std::chrono::abs(a.time - time) < std::chrono::abs(b.time - time);
        });
    return found == sequence.marks.end() ? nullptr : &*found;
}

}  // namespace gasp
