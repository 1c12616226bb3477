// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"

#include "tests/core/show/lighthouse.hpp"
#include "tests/support/catch.hpp"

#include <array>
#include <functional>
#include <vector>

using namespace gasp;
using namespace gasp::testing;

namespace {

constexpr std::array both{lunge_cue, lamp_cue};

}  // namespace

TEST_CASE("moving a mark moves the cue tied to it, and no other") {
    const Show before = lighthouse();
    const Edit edit = move_mark(before, scare, light, 6s);
    const Show after = with(edit, before);
    CHECK(edit.sentence == "move mark");
    CHECK(start_in(before, lunge_cue) == 3500ms);
    CHECK(start_in(after, lunge_cue) == 5500ms);
    CHECK(start_in(after, lamp_cue) == 1s);
}

TEST_CASE("a mark stops where a cue tied to it would begin before the sequence") {
    const Show after = with(move_mark(lighthouse(), scare, light, -3s), lighthouse());
    CHECK(find(after.sequences.front(), light)->time == 500ms);
    CHECK(start_in(after, lunge_cue) == 0s);
}

TEST_CASE("moved cues keep their distances, and stop together at 0") {
    const Show before = lighthouse();
    const Edit later = move_cues(before, scare, both, 250ms);
    CHECK(later.sentence == "move 2 cues");
    CHECK(start_in(with(later, before), lamp_cue) == 1250ms);
    CHECK(cue_in(with(later, before), lunge_cue).at == -250ms);
    CHECK(cue_in(with(later, before), lunge_cue).mark == light);

    const Show earliest = with(move_cues(before, scare, both, -10s), before);
    CHECK(start_in(earliest, lamp_cue) == 0s);
    CHECK(start_in(earliest, lunge_cue) == 2500ms);
    CHECK(move_cues(earliest, scare, both, -1ms).empty());
    CHECK(move_cues(before, scare, std::array{lamp_cue}, 1ms).sentence == "move cue");
}

TEST_CASE("all of a sequence is shifted at once, its end with it, and back") {
    Show before = lighthouse();
    SoundClip clip;
    clip.file = "keeper.flac";
    clip.start = 700ms;
    clip.length = clip.file_length = 2s;
    apply(add_clip(before, scare, clip), before);
    const Sequence& was = before.sequences.front();

    const Edit later = shift_sequence(before, scare, 2s);
    CHECK(later.sentence == "shift all of the sequence");
    const Show after = with(later, before);
    const Sequence& is = after.sequences.front();
    CHECK(is.length == was.length + 2s);
    CHECK(is.clips.front().start == was.clips.front().start + 2s);
    CHECK(find(is, light)->time == find(was, light)->time + 2s);
    CHECK(start_in(after, lamp_cue) == start_in(before, lamp_cue) + 2s);
    CHECK(start_in(after, lunge_cue) == start_in(before, lunge_cue) + 2s);  // tied: with its mark, not twice
    CHECK(with(shift_sequence(after, scare, -2s), after).sequences == before.sequences);
    Show undone = after;
    revert(later, undone);
    CHECK(undone == before);

    // What comes first stops at 0, and everything with it; nothing goes beyond a day.
    const Show earliest = with(shift_sequence(before, scare, -10s), before);
    CHECK(earliest.sequences.front().clips.front().start == 0s);
    CHECK(start_in(earliest, lamp_cue) == start_in(before, lamp_cue) - 700ms);
    CHECK(shift_sequence(earliest, scare, -1ms).empty());
    const Show latest = with(shift_sequence(before, scare, 48h), before);
    CHECK(latest.sequences.front().length == 24h);
    CHECK(shift_sequence(before, SequenceId{99}, 1s).empty());
}

TEST_CASE("cues that are gone are passed over") {
    const Show show = lighthouse();
    CHECK(move_cues(show, scare, std::array{CueId{99}}, 1s).empty());
    CHECK(move_cues(show, SequenceId{99}, both, 1s).empty());
    CHECK(remove_cues(show, scare, std::array{CueId{99}, lamp_cue, lamp_cue}).sentence == "delete cue");
    CHECK(tie_cues(show, scare, both, MarkId{99}).empty());
    CHECK(put_cues_on_channel(show, scare, both, ChannelId{99}).empty());
}

TEST_CASE("the joined steps of a drag are one, and nothing when it ends where it began") {
    Show show = lighthouse();
    const Edit first = move_cues(show, scare, both, 1s);
    apply(first, show);
    const Edit second = move_cues(show, scare, both, 500ms);
    const Edit back = move_cues(show, scare, both, -1s);
    const Edit drag = joined(first, second);
    REQUIRE(drag.changes.size() == 1);
    CHECK(drag == move_cues(lighthouse(), scare, both, 1500ms));
    CHECK(joined(first, back).empty());
}

TEST_CASE("steps that hang on each other's places stay in order when joined") {
    const auto check_joined = [](const std::vector<std::function<Edit(const Show&)>>& steps) {
        Show show = lighthouse();
        Edit all;
        for (const auto& step : steps) {
            const Edit edit = step(show);
            CHECK_FALSE(edit.empty());
            apply(edit, show);
            all = joined(all, edit);
        }
        Show at_once = with(all, lighthouse());
        CHECK(at_once == show);
        revert(all, at_once);
        CHECK(at_once == lighthouse());
    };
    const auto contact = [](Contact to) {
        return [to](const Show& show) {
            Channel lamp = *find(show, ChannelId{4});
            lamp.contact = to;
            return set_channel(show, lamp);
        };
    };
    // The lamp's place changes between its two changes.
    check_joined({contact(Contact::normally_closed),
                  [](const Show& show) { return move_channel(show, ChannelId{3}, 1); },
                  contact(Contact::normally_open)});
    check_joined({contact(Contact::normally_closed),
                  [](const Show& show) { return remove_channel(show, ChannelId{3}); },
                  contact(Contact::normally_open)});
    // A sequence comes, is filled, and goes.
    check_joined(
        {[](const Show& show) { return add_sequence(show, "Extra", SequenceKind::by_hand, 5s); },
         [](const Show& show) { return add_mark(show, show.sequences.back().id, 1s, "x"); },
         [](const Show& show) {
             return add_marks(show, show.sequences.back().id,
                              std::vector<std::pair<Micros, std::string>>{{1s, "x"}, {2s, "y"}});
         },
         [](const Show& show) {
             return set_sequence_head(show, show.sequences.back().id, {"More", SequenceKind::idle, 6s});
         },
         [](const Show& show) { return remove_sequence(show, show.sequences.back().id); }});
}

TEST_CASE("cues added get ids of their own, and undoing gives the ids back") {
    Show show = lighthouse();
    const Edit edit =
        add_cues(show, scare, {cue_of(7, 4, std::nullopt, -1s, 0s), cue_of(7, 99, std::nullopt, 0s, 1s)});
    CHECK(edit.sentence == "add cue");
    apply(edit, show);
    CHECK(show.next_id == 12);
    CHECK(start_in(show, CueId{11}) == 0s);
    CHECK(cue_in(show, CueId{11}).length == 1ms);
    revert(edit, show);
    CHECK(show == lighthouse());
}

TEST_CASE("a cue of a mark elsewhere is added free") {
    const Show show = with(add_cues(lighthouse(), idle, {cue_of(0, 4, light, 2s, 1s)}), lighthouse());
    CHECK(show.sequences[1].cues.back().mark == std::nullopt);
    CHECK(show.sequences[1].cues.back().at == 2s);
}

TEST_CASE("stretching holds one edge") {
    const Show before = lighthouse();
    const auto stretched = [&](Micros start, Micros length) {
        const Cue cue = cue_in(with(stretch_cue(before, scare, lamp_cue, start, length), before), lamp_cue);
        return std::pair(cue.at, cue.at + cue.length);
    };
    CHECK(stretched(1s, 4s) == std::pair<Micros, Micros>(1s, 5s));
    CHECK(stretched(1s, -1s) == std::pair<Micros, Micros>(1s, 1001ms));
    CHECK(stretched(2s, 1s) == std::pair<Micros, Micros>(2s, 3s));
    CHECK(stretched(3500ms, -500ms) == std::pair<Micros, Micros>(3499ms, 3500ms));
    CHECK(stretched(-1s, 4s) == std::pair<Micros, Micros>(0s, 3s));
    CHECK(stretch_cue(before, scare, lamp_cue, 1s, 2s).empty());
    CHECK(stretch_cue(before, scare, lamp_cue, 1s, 4s).sentence == "stretch cue");
}

TEST_CASE("stretching a tied cue keeps its tie") {
    const Show after = with(stretch_cue(lighthouse(), scare, lunge_cue, 3s, 1500ms), lighthouse());
    CHECK(cue_in(after, lunge_cue).at == -1s);
    CHECK(cue_in(after, lunge_cue).mark == light);
    CHECK(start_in(after, lunge_cue) == 3s);
}

TEST_CASE("tying and freeing moves nothing on the ruler") {
    const Show before = lighthouse();
    const Edit tie = tie_cues(before, scare, both, light);
    const Show tied = with(tie, before);
    CHECK(tie.sentence == "tie cue to mark \"light\"");
    CHECK(cue_in(tied, lamp_cue).at == -3s);
    CHECK(start_in(tied, lamp_cue) == 1s);
    const Edit free = tie_cues(tied, scare, both, std::nullopt);
    CHECK(free.sentence == "free 2 cues from their mark");
    CHECK(start_in(with(free, tied), lunge_cue) == 3500ms);
    CHECK(cue_in(with(free, tied), lunge_cue).mark == std::nullopt);
}

TEST_CASE("a mark taken away leaves its cues where they stand") {
    const Edit edit = remove_mark(lighthouse(), scare, light);
    const Show after = with(edit, lighthouse());
    CHECK(edit.sentence == "delete mark");
    CHECK(after.sequences.front().marks.empty());
    CHECK(cue_in(after, lunge_cue).mark == std::nullopt);
    CHECK(start_in(after, lunge_cue) == 3500ms);
}

TEST_CASE("flashes, channels and names of cues") {
    const Show before = lighthouse();
    CHECK(set_flashes(before, scare, both, Flashes{2, 50}).sentence == "set 2 cues flashing");
    CHECK(set_flashes(before, scare, both, Flashes{0, 50}).empty());
    CHECK(set_flashes(before, scare, both, std::nullopt).empty());
    const Edit edit = put_cues_on_channel(before, scare, both, ChannelId{4});
    CHECK(edit.sentence == "move cue to \"Lamp\"");
    CHECK(cue_in(with(edit, before), lunge_cue).channel == ChannelId{4});
    CHECK(cue_in(with(rename_cue(before, scare, lamp_cue, "dim"), before), lamp_cue).name == "dim");
}

TEST_CASE("sound that ends after the sequence lengthens it, in the same step") {
    SoundClip clip;
    clip.file = "voices/keeper.flac";
    clip.file_length = 25s;
    clip.start = 1s;
    clip.length = 25s;
    Show show = lighthouse();
    const Edit edit = add_clip(show, scare, clip);
    apply(edit, show);
    CHECK(edit.sentence == "add sound");
    CHECK(show.sequences.front().length == 26s);
    CHECK(end_of_sound(show.sequences.front()) == 26s);
    revert(edit, show);
    CHECK(show == lighthouse());
    clip.file = "../keeper.flac";
    CHECK(add_clip(show, scare, clip).empty());
}

namespace {

/// A show with one clip of 10 s from 1 s on the ruler, faded in over 2 s and out over 3 s.
Show with_voice() {
    SoundClip clip;
    clip.file = "keeper.flac";
    clip.content = "fnv1a64:0123456789abcdef";
    clip.file_length = 12s;
    clip.start = 1s;
    clip.from = 500ms;
    clip.length = 10s;
    clip.lane = 2;
    clip.fade_in = 2s;
    clip.fade_out = 3s;
    return with(add_clip(lighthouse(), scare, clip), lighthouse());
}

const std::vector<SoundClip>& clips_of(const Show& show) {
    return show.sequences.front().clips;
}

}  // namespace

TEST_CASE("a clip split in two plays the same stretch of its file") {
    const Show before = with_voice();
    const SoundClip whole = clips_of(before).front();
    const Edit edit = split_clip(before, scare, whole.id, 5s);
    CHECK(edit.sentence == "split sound");
    const Show after = with(edit, before);
    REQUIRE(clips_of(after).size() == 2);
    const SoundClip& first = clips_of(after)[0];
    const SoundClip& second = clips_of(after)[1];
    CHECK(first.length == 4s);
    CHECK(first.fade_in == 2s);
    CHECK(first.fade_out == 0s);
    CHECK(second.start == 5s);
    CHECK(second.from == 4500ms);
    CHECK(second.length == 6s);
    CHECK(second.fade_in == 0s);
    CHECK(second.fade_out == 3s);
    CHECK(second.lane == 2);
    CHECK(clips_of(with(split_clip(before, scare, whole.id, 2s), before)).front().fade_in == 1s);
    for (const Micros outside : {Micros{1s}, Micros{11s}, Micros{0s}}) {
        CHECK(split_clip(before, scare, whole.id, outside).empty());
    }
}

TEST_CASE("a duplicate of a clip lengthens the sequence it ends after") {
    const Show before = with_voice();
    const Show after = with(duplicate_clip(before, scare, clips_of(before).front().id, 40s), before);
    REQUIRE(clips_of(after).size() == 2);
    CHECK(clips_of(after)[1].start == 40s);
    CHECK(clips_of(after)[1].lane == 2);
    CHECK(after.sequences.front().length == 50s);
    CHECK(duplicate_clip(before, scare, ClipId{99}, 1s).empty());
}

TEST_CASE("fades fit in their clip, lanes among the lanes") {
    const Show before = with_voice();
    const ClipId id = clips_of(before).front().id;
    const auto faded = [&](Micros in, Micros out) {
        return clips_of(with(set_clip_fades(before, scare, id, in, out), before)).front();
    };
    CHECK(faded(4s, 20s).fade_in == 4s);
    CHECK(faded(4s, 20s).fade_out == 6s);
    CHECK(faded(20s, 1s).fade_in == 10s);
    CHECK(faded(20s, 1s).fade_out == 0s);
    CHECK(faded(-1s, -1s).fade_in == 0s);
    CHECK(clips_of(with(move_clip_to_lane(before, scare, id, 99), before)).front().lane == 8);
    CHECK(move_clip_to_lane(before, scare, id, 2).empty());
    CHECK(sound_lanes(before.sequences.front()) == 2);
}

TEST_CASE("levels of many clips and files that were moved are set in one step") {
    const Show before =
        with(duplicate_clip(with_voice(), scare, clips_of(with_voice()).front().id, 20s), with_voice());
    const ClipId first = clips_of(before)[0].id;
    const ClipId second = clips_of(before)[1].id;
    const std::array levels{ClipLevel{scare, first, -3.5}, ClipLevel{scare, second, 99.0}};
    const Edit edit = set_clip_gains(before, levels);
    CHECK(edit.changes.size() == 1);
    CHECK(clips_of(with(edit, before))[0].gain_db == -3.5);
    CHECK(clips_of(with(edit, before))[1].gain_db == 60.0);

    const auto file_after = [&](const MovedSound& moved) {
        return clips_of(with(set_clip_files(before, std::array{moved}), before))[1].file;
    };
    CHECK(file_after({"keeper.flac", "", "voices/keeper.flac"}) == "voices/keeper.flac");
    CHECK(file_after({"keeper.flac", "fnv1a64:0123456789abcdef", "voices/k.flac"}) == "voices/k.flac");
    CHECK(file_after({"keeper.flac", "fnv1a64:ffffffffffffffff", "voices/k.flac"}) == "keeper.flac");
    CHECK(file_after({"keeper.flac", "", "../keeper.flac"}) == "keeper.flac");
}

TEST_CASE("clips are changed and taken away") {
    SoundClip clip;
    clip.file = "keeper.flac";
    clip.length = 2s;
    Show show = with(add_clip(lighthouse(), scare, clip), lighthouse());
    clip = show.sequences.front().clips.front();
    CHECK(clip.id == ClipId{11});
    clip.gain_db = -6;
    show = with(set_clip(show, scare, clip), show);
    CHECK(show.sequences.front().clips.front().gain_db == -6);
    CHECK(with(remove_clip(show, scare, clip.id), show).sequences.front().clips.empty());
}

TEST_CASE("sequences are added, renamed and taken away, but never the last") {
    Show show = lighthouse();
    const Edit add = add_sequence(show, "Scare", SequenceKind::by_hand, 5s);
    CHECK(add.sentence == "add sequence \"Scare 2\"");
    show = with(add, show);
    CHECK(show.sequences.back().name == "Scare 2");
    CHECK(set_sequence_head(show, idle, {"Calm", SequenceKind::idle, 60s}).sentence ==
          "rename \"Idle\" to \"Calm\"");
    CHECK(set_sequence_head(show, idle, {"Idle", SequenceKind::idle, 6s}).sentence ==
          "change length of \"Idle\"");
    CHECK(set_sequence_head(show, idle, {" ", SequenceKind::idle, 60s}).empty());
    show = with(remove_sequence(show, scare), show);
    show = with(remove_sequence(show, idle), show);
    CHECK(show.sequences.size() == 1);
    CHECK(remove_sequence(show, show.sequences.front().id).empty());
    CHECK(with(rename_show(show, "Marsh"), show).name == "Marsh");
}

TEST_CASE("free names") {
    const std::vector<std::string> taken{"Lamp", "Lamp 2"};
    CHECK(free_name("Lamp", taken) == "Lamp 3");
    CHECK(free_name("Bell", taken) == "Bell");
}
