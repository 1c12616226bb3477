// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/sequence.hpp"

#include <algorithm>

namespace gasp {
namespace {

template <class T, class IdOf>
const T* find_in(const std::vector<T>& things, IdOf id) {
    const auto place = std::lower_bound(things.begin(), things.end(), id,
                                        [](const T& thing, IdOf i) { return thing.id < i; });
    return place != things.end() && place->id == id ? &*place : nullptr;
}

}  // namespace

const SoundClip* find(const Sequence& sequence, ClipId id) {
    return find_in(sequence.clips, id);
}
const Mark* find(const Sequence& sequence, MarkId id) {
    return find_in(sequence.marks, id);
}
const Cue* find(const Sequence& sequence, CueId id) {
    return find_in(sequence.cues, id);
}

Micros start_of(const Sequence& sequence, const Cue& cue) {
    if (!cue.mark) {
        return cue.at;
    }
    const Mark* mark = find(sequence, *cue.mark);
    return mark ? mark->time + cue.at : cue.at;
}

Micros end_of_sound(const Sequence& sequence) {
    Micros end{0};
    for (const SoundClip& clip : sequence.clips) {
        end = std::max(end, clip.start + clip.length);
    }
    return end;
}

std::uint32_t sound_lanes(const Sequence& sequence) {
    std::uint32_t lanes = 1;
    for (const SoundClip& clip : sequence.clips) {
        lanes = std::max(lanes, clip.lane);
    }
    return lanes;
}

}  // namespace gasp
