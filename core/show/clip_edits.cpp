// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"

#include <cmath>

namespace gasp {
namespace {

/// The clip with its times and level made to fit; its path is looked at by who calls.
SoundClip fitted(SoundClip clip) {
    clip.file_length = within_day(clip.file_length);
    clip.from = within_day(clip.from);
    clip.start = std::clamp(clip.start, Micros{0}, longest_sequence - Micros{1});
    clip.length = std::clamp(clip.length, Micros{1}, longest_sequence - clip.start);
    clip.gain_db = std::isfinite(clip.gain_db) ? std::clamp(clip.gain_db, least_gain_db, most_gain_db) : 0.0;
    clip.lane = std::clamp(clip.lane, 1U, most_sound_lanes);
    clip.fade_in = std::clamp(clip.fade_in, Micros{0}, clip.length);
    clip.fade_out = std::clamp(clip.fade_out, Micros{0}, clip.length - clip.fade_in);
    return clip;
}

/// Puts a new clip into a sequence, which becomes as long as it must.
void put_clip(Edit& edit, const Show& show, const Sequence& sequence, SoundClip clip) {
    clip = fitted(std::move(clip));
    clip.id = ClipId{show.next_id};
    edit.ids_taken = 1;
    SequenceHead head = head_of(sequence);
    head.length = std::max(head.length, clip.start + clip.length);
    add_change(edit, sequence.id, head_of(sequence), std::move(head));
    add_change<SoundClip>(edit, sequence.id, {{std::nullopt, std::move(clip)}});
}

/// One step on clips of every sequence: `change` is void(const Sequence&, SoundClip&).
template <class F>
Edit edit_clips(const Show& show, std::string sentence, F&& change) {
    Edit edit{std::move(sentence), {}, 0};
    for (const Sequence& sequence : show.sequences) {
        std::vector<Exchange<SoundClip>> exchanges;
        for (const SoundClip& clip : sequence.clips) {
            exchange(exchanges, clip, [&](SoundClip& after) { change(sequence, after); });
        }
        add_change(edit, sequence.id, std::move(exchanges));
    }
    return edit;
}

}  // namespace

Edit add_clip(const Show& show, SequenceId id, SoundClip clip) {
    Edit edit{"add sound", {}, 0};
    const Sequence* sequence = find(show, id);
    if (!sequence || !ids_left(show, 1) || !stays_inside(clip.file)) {
        return edit;
    }
    put_clip(edit, show, *sequence, std::move(clip));
    return edit;
}

Edit set_clip(const Show& show, SequenceId sequence, const SoundClip& clip) {
    if (!stays_inside(clip.file)) {
        return {};
    }
    return edit_one<SoundClip>(show, sequence, clip.id, "change sound",
                               [&](SoundClip& after) { after = fitted(clip); });
}

Edit remove_clip(const Show& show, SequenceId id, ClipId clip_id) {
    Edit edit{"delete sound", {}, 0};
    const Sequence* sequence = find(show, id);
    if (const SoundClip* clip = sequence ? find(*sequence, clip_id) : nullptr) {
        add_change<SoundClip>(edit, id, {{*clip, std::nullopt}});
    }
    return edit;
}

Edit split_clip(const Show& show, SequenceId id, ClipId clip_id, Micros at) {
    Edit edit{"split sound", {}, 0};
    const Sequence* sequence = find(show, id);
    const SoundClip* clip = sequence ? find(*sequence, clip_id) : nullptr;
    if (!clip || !ids_left(show, 1) || at <= clip->start || at >= clip->start + clip->length) {
        return edit;
    }
    SoundClip first = *clip;
    SoundClip second = *clip;
    first.length = at - clip->start;
    first.fade_in = std::min(first.fade_in, first.length);
    first.fade_out = Micros{0};
    second.id = ClipId{show.next_id};
    second.start = at;
    second.from = within_day(clip->from + first.length);
    second.length = clip->length - first.length;
    second.fade_in = Micros{0};
    second.fade_out = std::min(second.fade_out, second.length);
    edit.ids_taken = 1;
    add_change<SoundClip>(edit, id, {{*clip, std::move(first)}, {std::nullopt, std::move(second)}});
    return edit;
}

Edit duplicate_clip(const Show& show, SequenceId id, ClipId clip_id, Micros start) {
    Edit edit{"duplicate sound", {}, 0};
    const Sequence* sequence = find(show, id);
    const SoundClip* clip = sequence ? find(*sequence, clip_id) : nullptr;
    if (!clip || !ids_left(show, 1)) {
        return edit;
    }
    SoundClip again = *clip;
    again.start = start;
    put_clip(edit, show, *sequence, std::move(again));
    return edit;
}

Edit set_clip_fades(const Show& show, SequenceId sequence, ClipId id, Micros fade_in, Micros fade_out) {
    return edit_one<SoundClip>(show, sequence, id, "fade sound", [&](SoundClip& after) {
        after.fade_in = fade_in;
        after.fade_out = fade_out;
        after = fitted(std::move(after));
    });
}

Edit move_clip_to_lane(const Show& show, SequenceId sequence, ClipId id, std::uint32_t lane) {
    return edit_one<SoundClip>(show, sequence, id, "move sound to another lane", [&](SoundClip& after) {
        after.lane = std::clamp(lane, 1U, most_sound_lanes);
    });
}

Edit set_clip_gains(const Show& show, std::span<const ClipLevel> levels) {
    const auto gain_of = [levels](const Sequence& sequence, SoundClip& clip) {
        const auto level = std::ranges::find_if(levels, [&](const ClipLevel& each) {
            return each.sequence == sequence.id && each.clip == clip.id && std::isfinite(each.gain_db);
        });
        if (level != levels.end()) {
            clip.gain_db = std::clamp(level->gain_db, least_gain_db, most_gain_db);
        }
    };
    return edit_clips(show, "set level of sound", gain_of);
}

Edit set_clip_files(const Show& show, std::span<const MovedSound> moved) {
    const auto rename = [moved](const Sequence&, SoundClip& clip) {
        const auto found = std::ranges::find_if(moved, [&](const MovedSound& each) {
            return each.was == clip.file && (each.content.empty() || each.content == clip.content) &&
                   stays_inside(each.is);
        });
        if (found != moved.end()) {
            clip.file = found->is;
        }
    };
    return edit_clips(show, "find sound again", rename);
}

}  // namespace gasp
