// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edit_building.hpp"

#include <cmath>

namespace gasp {
namespace {

/// One step on one mark or clip: `change` is void(T&).
template <class T, class IdOf, class F>
Edit edit_one(const Show& show, SequenceId id, IdOf thing_id, std::string sentence, F&& change) {
    Edit edit{std::move(sentence), {}, 0};
    const Sequence* sequence = find(show, id);
    if (const T* thing = sequence ? find(*sequence, thing_id) : nullptr) {
        std::vector<Exchange<T>> exchanges;
        exchange(exchanges, *thing, change);
        add_change(edit, id, std::move(exchanges));
    }
    return edit;
}

/// The clip with its times and level made to fit; its path is looked at by who calls.
SoundClip fitted(SoundClip clip) {
    clip.file_length = within_day(clip.file_length);
    clip.from = within_day(clip.from);
    clip.start = std::clamp(clip.start, Micros{0}, longest_sequence - Micros{1});
    clip.length = std::clamp(clip.length, Micros{1}, longest_sequence - clip.start);
    clip.gain_db = std::isfinite(clip.gain_db) ? std::clamp(clip.gain_db, least_gain_db, most_gain_db) : 0.0;
    return clip;
}

}  // namespace

Edit add_mark(const Show& show, SequenceId sequence, Micros time, std::string name) {
    const std::pair<Micros, std::string> mark{time, std::move(name)};
    return add_marks(show, sequence, std::span(&mark, 1));
}

Edit add_marks(const Show& show, SequenceId sequence, std::span<const std::pair<Micros, std::string>> marks) {
    Edit edit{counted("add", "mark", marks.size()), {}, 0};
    if (find(show, sequence) && ids_left(show, marks.size())) {
        std::vector<Exchange<Mark>> exchanges;
        for (const auto& [time, name] : marks) {
            const MarkId id{show.next_id + edit.ids_taken++};
            exchanges.push_back({std::nullopt, Mark{id, name, within_day(time), {}}});
        }
        add_change<Mark>(edit, sequence, std::move(exchanges));
    }
    return edit;
}

Edit move_mark(const Show& show, SequenceId id, MarkId mark, Micros time) {
    const Sequence* sequence = find(show, id);
    if (!sequence) {
        return {};
    }
    Micros earliest{0};
    Micros latest = longest_sequence;
    for (const Cue& cue : sequence->cues) {
        if (cue.mark == mark) {
            earliest = std::max(earliest, -cue.at);
            latest = std::min(latest, longest_sequence - cue.at - cue.length);
        }
    }
    return edit_one<Mark>(show, id, mark, "move mark",
                          [&](Mark& after) { after.time = std::clamp(time, earliest, latest); });
}

Edit rename_mark(const Show& show, SequenceId sequence, MarkId mark, std::string name) {
    return edit_one<Mark>(show, sequence, mark, "rename mark",
                          [&](Mark& after) { after.name = std::move(name); });
}

Edit remove_mark(const Show& show, SequenceId id, MarkId mark_id) {
    Edit edit{"delete mark", {}, 0};
    const Sequence* sequence = find(show, id);
    const Mark* mark = sequence ? find(*sequence, mark_id) : nullptr;
    if (!mark) {
        return edit;
    }
    std::vector<Exchange<Cue>> freed;
    for (const Cue& cue : sequence->cues) {
        if (cue.mark == mark_id) {
            exchange(freed, cue, [mark](Cue& after) {
                after.at += mark->time;
                after.mark.reset();
            });
        }
    }
    add_change(edit, id, std::move(freed));
    add_change<Mark>(edit, id, {{*mark, std::nullopt}});
    return edit;
}

Edit add_clip(const Show& show, SequenceId id, SoundClip clip) {
    Edit edit{"add sound", {}, 0};
    const Sequence* sequence = find(show, id);
    if (!sequence || !ids_left(show, 1) || !stays_inside(clip.file)) {
        return edit;
    }
    clip = fitted(std::move(clip));
    clip.id = ClipId{show.next_id};
    edit.ids_taken = 1;
    SequenceHead head = head_of(*sequence);
    head.length = std::max(head.length, clip.start + clip.length);
    add_change(edit, id, head_of(*sequence), std::move(head));
    add_change<SoundClip>(edit, id, {{std::nullopt, std::move(clip)}});
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

}  // namespace gasp
