// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"

#include <unordered_set>

namespace gasp {
namespace {

constexpr Micros shortest_sequence{1000};

std::string head_sentence(const SequenceHead& before, const SequenceHead& after) {
    const bool renamed = before.name != after.name;
    const bool other_kind = before.kind != after.kind;
    const bool other_length = before.length != after.length;
    const bool other_trigger = before.trigger_after_s != after.trigger_after_s;
    if (renamed + other_kind + other_length + other_trigger != 1) {
        return "change " + quoted(before.name);
    }
    if (renamed) {
        return "rename " + quoted(before.name) + " to " + quoted(after.name);
    }
    return (other_kind     ? "change kind of "
            : other_length ? "change length of "
                           : "change trigger of ") +
           quoted(before.name);
}

/// The most of a shift that leaves everything, and the sequence's end, where it may be.
Micros shift_allowed(const Sequence& sequence, Micros by) {
    Micros earliest = shortest_sequence - sequence.length;
    Micros latest = longest_sequence - sequence.length;
    const auto keep = [&](Micros begin, Micros end) {
        earliest = std::max(earliest, -begin);
        latest = std::min(latest, longest_sequence - end);
    };
    for (const SoundClip& clip : sequence.clips) {
        keep(clip.start, clip.start + clip.length);
    }
    for (const Mark& mark : sequence.marks) {
        keep(mark.time, mark.time);
    }
    for (const Cue& cue : sequence.cues) {
        const Micros start = start_of(sequence, cue);
        keep(start, start + cue.length);
    }
    return std::clamp(by, std::min(earliest, Micros{0}), std::max(latest, Micros{0}));
}

}  // namespace

Edit add_sequence(const Show& show, std::string name, SequenceKind kind, Micros length) {
    Edit edit;
    if (!ids_left(show, 1)) {
        return edit;
    }
    Sequence sequence;
    sequence.id = SequenceId{show.next_id};
    sequence.name = name_among(show.sequences, sequence.id, name, "Sequence");
    sequence.kind = kind;
    sequence.length = std::clamp(length, shortest_sequence, longest_sequence);
    edit.sentence = "add sequence " + quoted(sequence.name);
    edit.ids_taken = 1;
    edit.changes.emplace_back(
        Exchange<Sequence>{std::nullopt, std::move(sequence), 0, show.sequences.size()});
    return edit;
}

Edit remove_sequence(const Show& show, SequenceId id) {
    Edit edit;
    const auto index = index_of(show.sequences, id);
    if (index && show.sequences.size() > 1) {
        edit.sentence = "delete sequence " + quoted(show.sequences[*index].name);
        edit.changes.emplace_back(Exchange<Sequence>{show.sequences[*index], std::nullopt, *index, 0});
    }
    return edit;
}

Edit set_sequence_head(const Show& show, SequenceId id, SequenceHead head) {
    Edit edit;
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return edit;
    }
    SequenceHead before = head_of(*sequence);
    head.name = name_among(show.sequences, id, head.name, before.name);
    head.length = std::clamp(head.length, shortest_sequence, longest_sequence);
    if (!trigger_after_allowed(head.trigger_after_s)) {
        head.trigger_after_s = before.trigger_after_s;
    }
    edit.sentence = head_sentence(before, head);
    add_change(edit, id, std::move(before), std::move(head));
    return edit;
}

Edit shift_sequence(const Show& show, SequenceId id, Micros by) {
    Edit edit{"shift all of the sequence", {}, 0};
    const Sequence* sequence = find(show, id);
    if (!sequence || (sequence->cues.empty() && sequence->marks.empty() && sequence->clips.empty())) {
        return edit;
    }
    const Micros shift = shift_allowed(*sequence, by);
    SequenceHead head = head_of(*sequence);
    head.length += shift;
    add_change(edit, id, head_of(*sequence), std::move(head));
    std::vector<Exchange<SoundClip>> clips;
    for (const SoundClip& clip : sequence->clips) {
        exchange(clips, clip, [shift](SoundClip& after) { after.start += shift; });
    }
    add_change(edit, id, std::move(clips));
    std::vector<Exchange<Mark>> marks;
    for (const Mark& mark : sequence->marks) {
        exchange(marks, mark, [shift](Mark& after) { after.time += shift; });
    }
    add_change(edit, id, std::move(marks));
    std::vector<Exchange<Cue>> cues;
    for (const Cue& cue : sequence->cues) {
        // A tied cue goes with its mark.
        exchange(cues, cue, [shift](Cue& after) { after.at += after.mark ? Micros{0} : shift; });
    }
    add_change(edit, id, std::move(cues));
    return edit;
}

Edit rename_show(const Show& show, std::string name) {
    Edit edit{"rename the show", {}, 0};
    add_change(edit, SequenceId{}, show.name, std::move(name));
    return edit;
}

std::string free_name(std::string_view wanted, std::span<const std::string> taken) {
    const std::unordered_set<std::string_view> names(taken.begin(), taken.end());
    std::string name(wanted);
    for (std::size_t number = 2; names.contains(name); ++number) {
        name = std::string(wanted) + " " + std::to_string(number);
    }
    return name;
}

}  // namespace gasp
