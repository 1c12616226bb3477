// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/edit_actions.hpp"

#include <algorithm>
#include <array>

// What is done to the selected sound clip by keys and the menu.

namespace gasp {

namespace {

enum Merge { louder_or_quieter = 121 };

}  // namespace

void EditActions::make_sound_actions() {
    using Needs = Words::Needs;
    for (QAction* action : {
             static_cast<QAction*>(nullptr),
             make({Icon::cut, "Split the sound at the playhead", {QKeySequence("X")}, Needs::clip},
                  &EditActions::split_sound),
             make({Icon::sound, "Fade the sound in up to the playhead", {QKeySequence("I")}, Needs::clip},
                  &EditActions::fade_in),
             make({Icon::sound, "Fade the sound out from the playhead", {QKeySequence("O")}, Needs::clip},
                  &EditActions::fade_out),
             make({Icon::up, "Sound louder by 1 dB", {QKeySequence("V")}, Needs::clip}, &EditActions::louder),
             make({Icon::down, "Sound quieter by 1 dB", {QKeySequence("Shift+V")}, Needs::clip},
                  &EditActions::quieter),
             make({Icon::sound, "Choose the sound's file...", {QKeySequence("Shift+F3")}, Needs::clip},
                  &EditActions::choose_sound_file),
         }) {
        move_.push_back(action);
    }
}

const SoundClip* EditActions::selected_clip() const {
    const Document& document = scene_.document();
    return document.selection().clip ? find(document.sequence(), *document.selection().clip) : nullptr;
}

template <class F>
void EditActions::edit_clip(F&& make) {
    Document& document = scene_.document();
    if (const SoundClip* clip = selected_clip()) {
        document.perform(make(document.show(), document.sequence_id(), *clip));
    }
}

void EditActions::choose_sound_file() {
    if (const SoundClip* clip = selected_clip()) {
        emit sound_file_requested(clip->id);
    }
}

void EditActions::split_sound() {
    const SoundClip* clip = selected_clip();
    if (clip == nullptr) {
        return;
    }
    const ClipId second{scene_.document().show().next_id};
    const Edit edit =
        split_clip(scene_.document().show(), scene_.document().sequence_id(), clip->id, scene_.playhead());
    if (edit.empty()) {
        emit said(tr("Nothing split: put the playhead within the sound"));
        return;
    }
    scene_.document().perform(edit);
    scene_.document().select({{}, {}, second, {}});
}

void EditActions::repeat_clip(const SoundClip& clip) {
    Document& document = scene_.document();
    const ClipId again{document.show().next_id};
    const Micros start = clip.start + clip.length;
    document.perform(duplicate_clip(document.show(), document.sequence_id(), clip.id, start));
    document.select({{}, {}, again, {}});
    emit shown(start);
}

void EditActions::fade_in() {
    edit_clip([this](const Show& show, SequenceId sequence, const SoundClip& clip) {
        return set_clip_fades(show, sequence, clip.id, scene_.playhead() - clip.start, clip.fade_out);
    });
}

void EditActions::fade_out() {
    edit_clip([this](const Show& show, SequenceId sequence, const SoundClip& clip) {
        const Micros left = clip.start + clip.length - scene_.playhead();
        const Micros room = clip.length - clip.fade_in;
        return set_clip_fades(show, sequence, clip.id, clip.fade_in, std::clamp(left, Micros{0}, room));
    });
}

void EditActions::louder() {
    change_gain(1.0);
}
void EditActions::quieter() {
    change_gain(-1.0);
}

void EditActions::change_gain(double by_db) {
    Document& document = scene_.document();
    if (const SoundClip* clip = selected_clip()) {
        const double gain_db = std::clamp(clip->gain_db + by_db, least_gain_db, most_gain_db);
        const std::array level{ClipLevel{document.sequence_id(), clip->id, gain_db}};
        document.perform(set_clip_gains(document.show(), level), louder_or_quieter);
        emit said(tr("Sound at %1 dB").arg(gain_db, 0, 'f', 1));
    }
}

void EditActions::move_clip(Micros by, int merge) {
    Document& document = scene_.document();
    if (const SoundClip* clip = selected_clip()) {
        SoundClip moved = *clip;
        moved.start = std::max(moved.start + by, Micros{0});
        document.perform(set_clip(document.show(), document.sequence_id(), moved), merge);
        emit shown(moved.start);
        emit moved_by_key(moved.start);
    }
}

void EditActions::change_sound_lane(int way) {
    const SoundClip* clip = selected_clip();
    const bool there = clip != nullptr && (way > 0 ? clip->lane < most_sound_lanes : clip->lane > 1);
    if (!there) {
        emit said(tr("No further sound lane"));
        return;
    }
    const std::uint32_t lane = way > 0 ? clip->lane + 1 : clip->lane - 1;
    scene_.document().perform(
        move_clip_to_lane(scene_.document().show(), scene_.document().sequence_id(), clip->id, lane));
}

}  // namespace gasp
