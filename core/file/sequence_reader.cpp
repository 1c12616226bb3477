// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/sequence_reader.hpp"

#include "core/file/json_object.hpp"

#include <algorithm>

namespace gasp {
namespace {

template <class T, Micros T::*member>
void read_time(Reading& reading, JsonValue& value, T& part) {
    part.*member = reading.time(value);
}

template <class T>
void read_id(Reading& reading, JsonValue& value, T& part) {
    part.id.value = reading.id(value);
}

template <class T>
void read_name(Reading& reading, JsonValue& value, T& part) {
    part.name = reading.string(value);
}

constexpr Member<SoundClip> clip_members[]{
    {"id", true, &read_id<SoundClip>},
    {"file", true,
     [](Reading& reading, JsonValue& value, SoundClip& clip) { clip.file = reading.string(value); }},
    {"content", false,
     [](Reading& reading, JsonValue& value, SoundClip& clip) { clip.content = reading.string(value); }},
    {"file_length_us", true, &read_time<SoundClip, &SoundClip::file_length>},
    {"start_us", true, &read_time<SoundClip, &SoundClip::start>},
    {"from_us", false, &read_time<SoundClip, &SoundClip::from>},
    {"length_us", true, &read_time<SoundClip, &SoundClip::length>},
    {"gain_db", false,
     [](Reading& reading, JsonValue& value, SoundClip& clip) { clip.gain_db = reading.figure(value); }},
    {"lane", false,
     [](Reading& reading, JsonValue& value, SoundClip& clip) { clip.lane = reading.id(value); }},
    {"fade_in_us", false, &read_time<SoundClip, &SoundClip::fade_in>},
    {"fade_out_us", false, &read_time<SoundClip, &SoundClip::fade_out>},
};

constexpr Member<Mark> mark_members[]{
    {"id", true, &read_id<Mark>},
    {"name", true, &read_name<Mark>},
    {"time_us", true, &read_time<Mark, &Mark::time>},
};

/// A cue before it is known which of its two kinds of start and of pattern it has.
struct CueDraft {
    Cue cue;
    std::optional<Micros> start;
    std::optional<Micros> offset;
    Figure rate_hz;
    Figure duty_percent;
};

constexpr Member<CueDraft> cue_members[]{
    {"id", true,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.id.value = reading.id(value); }},
    {"channel", true,
     [](Reading& reading, JsonValue& value, CueDraft& draft) {
         draft.cue.channel.value = reading.id(value);
     }},
    {"start_us", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.start = reading.time(value); }},
    {"mark", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.mark = MarkId{reading.id(value)}; }},
    {"offset_us", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.offset = reading.time(value); }},
    {"length_us", true,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.length = reading.time(value); }},
    {"strikes", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.strikes = reading.truth(value); }},
    {"from_voice", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) {
         draft.cue.from_voice = reading.truth(value);
     }},
    {"freedom_us", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.freedom = reading.time(value); }},
    {"rate_hz", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.rate_hz = reading.figure(value); }},
    {"duty_percent", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.duty_percent = reading.figure(value); }},
    {"name", false,
     [](Reading& reading, JsonValue& value, CueDraft& draft) { draft.cue.name = reading.string(value); }},
};

/// Settles where the cue begins and how it goes.
void settle(const Reading& reading, CueDraft& draft) {
    Cue& cue = draft.cue;
    if (draft.start.has_value() == cue.mark.has_value() || cue.mark.has_value() != draft.offset.has_value()) {
        reading.refuse("this cue does not say in one way where it starts",
                       "Give it either \"start_us\", or \"mark\" and \"offset_us\"");
    }
    cue.at = draft.start ? *draft.start : *draft.offset;
    if (draft.rate_hz.has_value() != draft.duty_percent.has_value()) {
        reading.refuse("this cue says only half of how it flashes",
                       "Give it both \"rate_hz\" and \"duty_percent\", or neither");
    }
    if (draft.rate_hz) {
        cue.flashes = Flashes{*draft.rate_hz, *draft.duty_percent};
    }
}

void read_cues(Reading& reading, JsonValue& value, Sequence& sequence) {
    static const ObjectReader<CueDraft> reader(cue_members, {});
    read_list(reading, value, [&sequence](Reading& inner, JsonValue& item) {
        CueDraft draft;
        reader.read(inner, inner.object(item), draft, draft.cue.extra);
        settle(inner, draft);
        sequence.cues.push_back(std::move(draft.cue));
    });
}

template <class T, std::vector<T> Sequence::*member>
void read_things(Reading& reading, JsonValue& value, std::span<const Member<T>> members, Sequence& sequence) {
    const ObjectReader<T> reader(members, {});
    read_list(reading, value, [&](Reading& inner, JsonValue& item) {
        T& thing = (sequence.*member).emplace_back();
        reader.read(inner, inner.object(item), thing, thing.extra);
    });
}

constexpr Member<Sequence> sequence_members[]{
    {"id", true, &read_id<Sequence>},
    {"name", true, &read_name<Sequence>},
    {"kind", false,
     [](Reading& reading, JsonValue& value, Sequence& sequence) {
         sequence.kind = static_cast<SequenceKind>(read_choice(reading, value, sequence_kind_keys()));
     }},
    {"length_us", true, &read_time<Sequence, &Sequence::length>},
    {"trigger_after_s", false,
     [](Reading& reading, JsonValue& value, Sequence& sequence) {
         sequence.trigger_after_s = reading.figure(value);
     }},
    {"clips", false,
     [](Reading& reading, JsonValue& value, Sequence& sequence) {
         read_things<SoundClip, &Sequence::clips>(reading, value, clip_members, sequence);
     }},
    {"marks", false,
     [](Reading& reading, JsonValue& value, Sequence& sequence) {
         read_things<Mark, &Sequence::marks>(reading, value, mark_members, sequence);
     }},
    {"cues", false, &read_cues},
};

/// A show keeps them in the order of their ids; in the text they may stand in any.
template <class T>
void sort_by_id(std::vector<T>& things) {
    const auto before = [](const T& a, const T& b) { return a.id < b.id; };
    if (!std::is_sorted(things.begin(), things.end(), before)) {
        std::stable_sort(things.begin(), things.end(), before);
    }
}

}  // namespace

void read_sequence(Reading& reading, JsonValue& value, Sequence& sequence) {
    ObjectReader<Sequence>(sequence_members, {})
        .read(reading, reading.object(value), sequence, sequence.extra);
    sort_by_id(sequence.clips);
    sort_by_id(sequence.marks);
    sort_by_id(sequence.cues);
}

}  // namespace gasp
