// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/edit_actions.hpp"
#include "ui/timeline/placing.hpp"

#include <algorithm>
#include <array>
#include <optional>

// Moving and stretching what is selected by keys, and the playhead.

namespace gasp {

namespace {

constexpr Micros ten_ms{10'000};
constexpr Micros hundred_ms{100'000};
/// Held keys become one step to undo for each kind of change.
enum Merge { nudging = 101, stretching = 102, shifting = 103 };

}  // namespace

void EditActions::make_move_actions() {
    using Needs = Words::Needs;
    move_ = {
        make({Icon::nudge_left, "Earlier by a tick", {QKeySequence("Left")}, Needs::anything},
             &EditActions::earlier_tick),
        make({Icon::nudge_right, "Later by a tick", {QKeySequence("Right")}, Needs::anything},
             &EditActions::later_tick),
        make({Icon::nudge_left, "Earlier by 10 ms", {QKeySequence("Shift+Left")}, Needs::anything},
             &EditActions::earlier_10),
        make({Icon::nudge_right, "Later by 10 ms", {QKeySequence("Shift+Right")}, Needs::anything},
             &EditActions::later_10),
        make({Icon::nudge_left, "Earlier by 100 ms", {QKeySequence("Ctrl+Left")}, Needs::anything},
             &EditActions::earlier_100),
        make({Icon::nudge_right, "Later by 100 ms", {QKeySequence("Ctrl+Right")}, Needs::anything},
             &EditActions::later_100),
        nullptr,
        make({Icon::nudge_left, "Shorter by a tick", {QKeySequence("Alt+Left")}}, &EditActions::shorter_tick),
        make({Icon::nudge_right, "Longer by a tick", {QKeySequence("Alt+Right")}}, &EditActions::longer_tick),
        make({Icon::nudge_left, "Shorter by 10 ms", {QKeySequence("Alt+Shift+Left")}},
             &EditActions::shorter_10),
        make({Icon::nudge_right, "Longer by 10 ms", {QKeySequence("Alt+Shift+Right")}},
             &EditActions::longer_10),
        nullptr,
        make({Icon::nudge_left,
              "All of the sequence earlier by 100 ms",
              {QKeySequence("Ctrl+Shift+Left")},
              Needs::nothing},
             &EditActions::all_earlier),
        make({Icon::nudge_right,
              "All of the sequence later by 100 ms",
              {QKeySequence("Ctrl+Shift+Right")},
              Needs::nothing},
             &EditActions::all_later),
        make({Icon::nudge_right,
              "All of the sequence so that it begins at the playhead",
              {QKeySequence("Ctrl+Shift+Home")},
              Needs::nothing},
             &EditActions::all_to_playhead),
        nullptr,
        make({Icon::grid, "Onto the grid", {QKeySequence("Shift+G")}, Needs::anything},
             &EditActions::to_grid),
        nullptr,
        make({Icon::up, "To the lane above", {QKeySequence("Alt+Up")}, Needs::anything},
             &EditActions::lane_up),
        make({Icon::down, "To the lane below", {QKeySequence("Alt+Down")}, Needs::anything},
             &EditActions::lane_down),
        nullptr,
        make({Icon::nudge_left, "Playhead back to the grid", {QKeySequence("Alt+,")}, Needs::nothing},
             &EditActions::playhead_back),
        make({Icon::nudge_right, "Playhead on to the grid", {QKeySequence("Alt+.")}, Needs::nothing},
             &EditActions::playhead_on),
        make({Icon::nudge_right, "Next cue", {QKeySequence(".")}, Needs::nothing}, &EditActions::next_cue),
        make({Icon::nudge_left, "Previous cue", {QKeySequence(",")}, Needs::nothing},
             &EditActions::previous_cue),
    };
}

Micros EditActions::tick() const {
    const Document& document = scene_.document();
    Micros finest{1000};
    for (const CueId id : selected()) {
        const Cue* cue = find(document.sequence(), id);
        if (const Channel* channel = cue != nullptr ? find(document.show(), cue->channel) : nullptr) {
            finest = std::max(finest, tick_of(document.show(), *channel));
        }
    }
    return finest;
}

void EditActions::earlier_tick() {
    nudge(-tick(), nudging);
}
void EditActions::later_tick() {
    nudge(tick(), nudging);
}
void EditActions::earlier_10() {
    nudge(-ten_ms, nudging);
}
void EditActions::later_10() {
    nudge(ten_ms, nudging);
}
void EditActions::earlier_100() {
    nudge(-hundred_ms, nudging);
}
void EditActions::later_100() {
    nudge(hundred_ms, nudging);
}
void EditActions::shorter_tick() {
    stretch(-tick(), stretching);
}
void EditActions::longer_tick() {
    stretch(tick(), stretching);
}
void EditActions::shorter_10() {
    stretch(-ten_ms, stretching);
}
void EditActions::longer_10() {
    stretch(ten_ms, stretching);
}

void EditActions::nudge(Micros by, int merge) {
    Document& document = scene_.document();
    if (selected_clip() != nullptr) {
        move_clip(by, merge);
        return;
    }
    if (document.selection().mark) {
        move_mark_by(by, merge);
        return;
    }
    document.perform(move_cues(document.show(), document.sequence_id(), selected(), by), merge);
    emit shown(earliest_selected());
    emit moved_by_key(earliest_selected());
}

void EditActions::all_earlier() {
    shift_all(-hundred_ms, shifting);
}
void EditActions::all_later() {
    shift_all(hundred_ms, shifting);
}

/// What comes first of cues and sounds; of marks where there is nothing else.
void EditActions::all_to_playhead() {
    const Sequence& sequence = scene_.document().sequence();
    std::optional<Micros> first;
    const auto take = [&first](Micros time) { first = std::min(first.value_or(time), time); };
    for (const Cue& cue : sequence.cues) {
        take(start_of(sequence, cue));
    }
    for (const SoundClip& clip : sequence.clips) {
        take(clip.start);
    }
    if (!first) {
        for (const Mark& mark : sequence.marks) {
            take(mark.time);
        }
    }
    if (first) {
        shift_all(scene_.playhead() - *first, 0);
    }
}

void EditActions::shift_all(Micros by, int merge) {
    Document& document = scene_.document();
    const Edit edit = shift_sequence(document.show(), document.sequence_id(), by);
    if (edit.empty()) {
        emit said(tr("Nothing shifted: the sequence is empty, or cannot go further that way"));
        return;
    }
    document.perform(edit, merge);
}

void EditActions::move_mark_by(Micros by, int merge) {
    Document& document = scene_.document();
    if (const Mark* mark = find(document.sequence(), *document.selection().mark)) {
        const MarkId id = mark->id;
        document.perform(move_mark(document.show(), document.sequence_id(), id, mark->time + by), merge);
        emit shown(find(document.sequence(), id)->time);
        emit moved_by_key(find(document.sequence(), id)->time);
    }
}

/// Each selected cue by itself; a clip or a mark as by a nudge.
void EditActions::to_grid() {
    Document& document = scene_.document();
    if (const SoundClip* clip = selected_clip()) {
        move_clip(scene_.nearest_on_grid(clip->start) - clip->start, 0);
        return;
    }
    if (const auto& id = document.selection().mark) {
        const Mark* mark = find(document.sequence(), *id);
        move_mark_by(scene_.nearest_on_grid(mark->time) - mark->time, 0);
        return;
    }
    Edit edit;
    for (const CueId id : selected()) {
        if (const PlacedCue* cue = scene_.cues().find(id)) {
            const std::array one{id};
            const Micros by = scene_.nearest_on_grid(cue->begin) - cue->begin;
            const Edit move = move_cues(document.show(), document.sequence_id(), one, by);
            edit.changes.insert(edit.changes.end(), move.changes.begin(), move.changes.end());
        }
    }
    edit.sentence = selected().size() == 1 ? "put cue on the grid" : "put cues on the grid";
    document.perform(edit);
    emit shown(earliest_selected());
}

void EditActions::stretch(Micros by, int merge) {
    Document& document = scene_.document();
    document.perform(lengthen_cues(document.show(), document.sequence_id(), selected(), by), merge);
}

void EditActions::playhead_back() {
    step_playhead(-1);
}
void EditActions::playhead_on() {
    step_playhead(1);
}

void EditActions::step_playhead(int way) {
    // Around one microsecond before the playhead lie the line before it, and it or the next one.
    const Micros from = scene_.playhead();
    const std::vector<Micros> beside =
        grid_beside(scene_.grid(), scene_.tick_scale(), way < 0 ? from - Micros{1} : from);
    emit playhead_dragged(
        std::clamp(way < 0 ? beside.front() : beside.back(), Micros{0}, scene_.document().sequence().length));
}

void EditActions::lane_up() {
    change_lane(-1);
}
void EditActions::lane_down() {
    change_lane(1);
}

void EditActions::change_lane(int way) {
    Document& document = scene_.document();
    if (selected_clip() != nullptr) {
        change_sound_lane(way);
        return;
    }
    const Cue* first = selected().empty() ? nullptr : find(document.sequence(), selected().front());
    const Lane* lane = first != nullptr ? scene_.lanes().neighbour(first->channel, way) : nullptr;
    if (lane == nullptr) {
        emit said(tr("No further lane of this kind"));
        return;
    }
    const ChannelId channel = lane->channel;
    document.perform(put_cues_on_channel(document.show(), document.sequence_id(), selected(), channel));
    Selection selection = document.selection();
    selection.channel = channel;
    document.select(std::move(selection));
}

}  // namespace gasp
