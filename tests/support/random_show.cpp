// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/support/random_show.hpp"

#include "core/show/edits.hpp"
#include "core/show/limits.hpp"
#include "tests/support/random_values.hpp"

#include <algorithm>

namespace gasp::testing {
namespace {

void fill_actuator(Actuator& actuator, const Show& show, Manner manner) {
    actuator.name = random_name(show.rig.actuators, manner);
    for_each_actuator_part([&](auto, auto, auto member) { fill(actuator.*member, manner); });
    double travel = 0.0;
    for (int points = below(4); points > 0; --points) {
        travel += random_double(0.1, 100.0);
        actuator.linkage.points.push_back({travel, random_double(-90.0, 180.0)});
    }
    for (int strokes = below(3); strokes > 0; --strokes) {
        actuator.fit.out_ms.push_back(random_double(1, 60'000));
        actuator.fit.back_ms.push_back(random_double(1, 60'000));
    }
    if (manner == Manner::careless && chance()) {
        actuator.fit.out_ms.push_back(careless_double());
    }
    actuator.extra = random_extra();
}

void fill_channel(Channel& channel, const Show& show, Manner manner) {
    fill(channel, manner);
    channel.name = random_name(show.rig.channels, manner);
    channel.board = maybe_id(show.rig.boards, manner);
    channel.output.reset();
    if (chance()) {
        channel.output = static_cast<std::uint32_t>(below(8)) + (manner == Manner::valid ? 1 : 0);
    }
    channel.actuator = maybe_id(show.rig.actuators, manner);
    if (chance()) {
        fill(channel.circuit, manner);
        channel.circuit.supply = maybe_id(show.rig.supplies, manner);
        channel.circuit.returns_to = maybe_id(show.rig.supplies, manner);
    }
    channel.excludes.clear();
    for (const Channel& other : show.rig.channels) {
        if (other.id != channel.id && one_in(3)) {
            channel.excludes.push_back(other.id);
        }
    }
    if (manner == Manner::careless && chance()) {
        channel.excludes.push_back(random_id(show.rig.channels, manner));
    }
}

void fill_board(Board& board, const Show& show, Manner manner) {
    fill(board, manner);
    board.name = random_name(show.rig.boards, manner);
}

void fill_supply(Supply& supply, const Show& show, Manner manner) {
    fill(supply, manner);
    supply.name = random_name(show.rig.supplies, manner);
    supply.fed_from = maybe_id(show.rig.supplies, manner);
}

std::optional<Flashes> random_flashes(Manner manner) {
    if (chance()) {
        return std::nullopt;
    }
    if (manner == Manner::careless && chance()) {
        return Flashes{careless_double(), careless_double()};
    }
    return Flashes{random_double(0.01, 1000), random_double(1, 99)};
}

SoundClip random_clip(Manner manner) {
    SoundClip clip;
    const std::string folder = *rc::gen::element<std::string>("", "voices/", "a b/\u00fc/", "..so/");
    const std::string name =
        *rc::gen::element<std::string>("keeper.flac", "\u706f\u53f0.wav", "it's \"2\".ogg");
    clip.file = folder + name;
    clip.content = chance() ? "fnv1a64:00ff00ff12345678" : "";
    clip.file_length = random_time();
    clip.start = random_time(longest_sequence - Micros{1});
    clip.from = random_time();
    clip.length = Micros{1} + random_time(longest_sequence - clip.start - Micros{1});
    clip.gain_db = random_double(-120, 60);
    clip.lane = 1 + static_cast<std::uint32_t>(below(static_cast<int>(most_sound_lanes)));
    clip.fade_in = one_in(3) ? Micros{0} : random_time(clip.length);
    clip.fade_out = one_in(3) ? Micros{0} : random_time(clip.length - clip.fade_in);
    clip.extra = random_extra();
    if (manner == Manner::careless && chance()) {
        clip.file =
            *rc::gen::element<std::string>("../secret.wav", "/etc/x.wav", "C:/x.wav", "a\\b", clip.file);
        clip.start = careless_time();
        clip.from = careless_time();
        clip.length = careless_time();
        clip.gain_db = careless_double();
        clip.lane = static_cast<std::uint32_t>(below(20));
        clip.fade_in = careless_time();
        clip.fade_out = careless_time();
    }
    return clip;
}

Cue random_cue(const Show& show, const Sequence& sequence, Manner manner) {
    Cue cue;
    cue.channel = random_id(show.rig.channels, manner);
    cue.mark = maybe_id(sequence.marks, manner);
    const Micros start = random_time(longest_sequence - Micros{1});
    const Mark* mark = cue.mark ? find(sequence, *cue.mark) : nullptr;
    cue.at = mark ? start - mark->time : start;
    cue.length = Micros{1} + random_time(longest_sequence - start - Micros{1});
    if (manner == Manner::careless && chance()) {
        cue.at = careless_time();
        cue.length = careless_time();
    }
    cue.flashes = random_flashes(manner);
    cue.strikes = one_in(3);
    cue.from_voice = one_in(5);
    cue.freedom = manner == Manner::careless ? careless_time() : Micros{below<std::int64_t>(60'000'001)};
    cue.name = chance() ? *random_text() : "";
    cue.extra = random_extra();
    return cue;
}

SequenceHead random_head(const Show& show, Manner manner) {
    return {
        random_name(show.sequences, manner),
        *rc::gen::element(SequenceKind::triggered, SequenceKind::idle, SequenceKind::by_hand),
        manner == Manner::careless ? careless_time() : Micros{1} + random_time(longest_sequence - Micros{1}),
        random_figure(0, 3600, manner)};
}

/// Hands out ids that rise, and skips some.
class Ids {
  public:
    template <class IdOf>
    void give(IdOf& id) {
        next_ += static_cast<std::uint32_t>(one_in(3) ? below(1000) : 0);
        id.value = next_++;
    }
    [[nodiscard]] std::uint32_t next() { return next_ + static_cast<std::uint32_t>(below(5)); }

  private:
    std::uint32_t next_ = 1;
};

void add_rig(Show& show, Ids& ids) {
    Rig& rig = show.rig;
    fill(rig.air_plant, Manner::valid);
    fill(rig.sensor, Manner::valid);
    fill(rig.speaker, Manner::valid);
    rig.extra = random_extra();
    const auto add = [&](auto& list, int most, auto&& fill_one) {
        for (int count = below(most + 1); count > 0; --count) {
            typename std::remove_reference_t<decltype(list)>::value_type thing;
            ids.give(thing.id);
            fill_one(thing, show, Manner::valid);
            // The user orders these lists, so that ids need not rise.
            list.insert(list.begin() + below(static_cast<int>(list.size()) + 1), std::move(thing));
        }
    };
    add(rig.actuators, 3, fill_actuator);
    add(rig.boards, 3, fill_board);
    add(rig.supplies, 3, fill_supply);
    add(rig.channels, 5, fill_channel);
}

Sequence random_sequence(const Show& show, Ids& ids) {
    Sequence sequence;
    ids.give(sequence.id);
    const SequenceHead head = random_head(show, Manner::valid);
    sequence.name = head.name;
    sequence.kind = head.kind;
    sequence.length = head.length;
    sequence.trigger_after_s = head.trigger_after_s;
    sequence.extra = random_extra();
    for (int count = below(3); count > 0; --count) {
        sequence.clips.push_back(random_clip(Manner::valid));
        ids.give(sequence.clips.back().id);
    }
    for (int count = below(4); count > 0; --count) {
        sequence.marks.push_back({{}, *random_text(), random_time(), random_extra()});
        ids.give(sequence.marks.back().id);
    }
    for (int count = show.rig.channels.empty() ? 0 : below(12); count > 0; --count) {
        sequence.cues.push_back(random_cue(show, sequence, Manner::valid));
        ids.give(sequence.cues.back().id);
    }
    return sequence;
}

std::vector<double> rising_figures(double most, int count, Manner manner) {
    std::vector<double> figures;
    for (; count > 0; --count) {
        figures.push_back(random_double(0, most));
    }
    std::ranges::sort(figures);
    if (manner == Manner::careless && chance()) {
        figures.push_back(careless_double());
    }
    return figures;
}

NightPlan random_night(Manner manner) {
    NightPlan night = random_part<NightPlan>(manner);
    night.groups_by_hour = rising_figures(1000, below(4), manner);
    night.arrivals_s = rising_figures(86400, below(4), manner);
    return night;
}

Show make_show() {
    Show show;
    Ids ids;
    show.name = *random_text();
    show.extra = random_extra();
    add_rig(show, ids);
    for (int count = 1 + below(3); count > 0; --count) {
        show.sequences.push_back(random_sequence(show, ids));
    }
    show.night = random_night(Manner::valid);
    show.next_id = ids.next();
    return show;
}

/// The thing of a list that is to be set anew; without id where the list is empty.
template <class T>
T thing_to_set(const std::vector<T>& things) {
    T thing = things.empty() ? T{} : one_of(things);
    if (one_in(5)) {
        thing.id.value = 4'000'000'000U;
    }
    return thing;
}

template <class T, class F>
T filled(T thing, const Show& show, F&& fill_one) {
    fill_one(thing, show, Manner::careless);
    return thing;
}

Edit cue_edit(const Show& show, const Sequence& in) {
    const auto ids = random_ids(in.cues);
    const auto id = random_id(in.cues, Manner::careless);
    switch (below(11)) {
        case 0: {
            std::vector<Cue> cues;
            for (int count = below(4); count > 0; --count) {
                cues.push_back(random_cue(show, in, Manner::careless));
            }
            return add_cues(show, in.id, std::move(cues));
        }
        case 1:
            return remove_cues(show, in.id, ids);
        case 2:
            return move_cues(show, in.id, ids, careless_time());
        case 3:
            return stretch_cue(show, in.id, id, careless_time(), careless_time());
        case 4:
            return put_cues_on_channel(show, in.id, ids, random_id(show.rig.channels, Manner::careless));
        case 5:
            return tie_cues(show, in.id, ids, maybe_id(in.marks, Manner::careless));
        case 6:
            return set_flashes(show, in.id, ids, random_flashes(Manner::careless));
        case 7:
            return set_freedom(show, in.id, ids, careless_time());
        case 8: {
            std::vector<CueLead> cues;
            for (const CueId one : ids) {
                cues.push_back({one, careless_time()});
            }
            return set_strikes(show, in.id, cues, chance());
        }
        case 9: {
            std::vector<std::pair<Micros, Micros>> stretches;
            for (int count = below(4); count > 0; --count) {
                stretches.emplace_back(careless_time(), careless_time());
            }
            return set_voice_cues(show, in.id, random_id(show.rig.channels, Manner::careless), stretches);
        }
        default:
            return rename_cue(show, in.id, id, *random_text());
    }
}

/// Edits of one clip that stays, and of the gains and files of many.
Edit change_of_clips(const Show& show, const Sequence& in) {
    const auto clip = random_id(in.clips, Manner::careless);
    switch (below(6)) {
        case 0:
            return split_clip(show, in.id, clip, careless_time());
        case 1:
            return duplicate_clip(show, in.id, clip, careless_time());
        case 2:
            return set_clip_fades(show, in.id, clip, careless_time(), careless_time());
        case 3:
            return move_clip_to_lane(show, in.id, clip, static_cast<std::uint32_t>(below(20)));
        case 4: {
            std::vector<ClipLevel> levels;
            for (const SoundClip& each : in.clips) {
                levels.push_back({in.id, each.id, careless_double()});
            }
            return set_clip_gains(show, levels);
        }
        default: {
            std::vector<MovedSound> moved;
            for (const SoundClip& each : in.clips) {
                moved.push_back(
                    {each.file, chance() ? each.content : "", random_clip(Manner::careless).file});
            }
            return set_clip_files(show, moved);
        }
    }
}

Edit mark_or_clip_edit(const Show& show, const Sequence& in) {
    const auto mark = random_id(in.marks, Manner::careless);
    switch (below(10)) {
        case 7:
        case 8:
            return change_of_clips(show, in);
        case 6: {
            std::vector<std::pair<Micros, std::string>> marks;
            for (int count = below(4); count > 0; --count) {
                marks.emplace_back(careless_time(), *random_text());
            }
            return add_marks(show, in.id, marks);
        }
        case 0:
            return add_mark(show, in.id, careless_time(), *random_text());
        case 1:
            return move_mark(show, in.id, mark, careless_time());
        case 2:
            return rename_mark(show, in.id, mark, *random_text());
        case 3:
            return remove_mark(show, in.id, mark);
        case 4:
            return add_clip(show, in.id, random_clip(Manner::careless));
        case 5: {
            SoundClip clip = random_clip(Manner::careless);
            clip.id = random_id(in.clips, Manner::careless);
            return set_clip(show, in.id, clip);
        }
        default:
            return remove_clip(show, in.id, random_id(in.clips, Manner::careless));
    }
}

Edit sequence_edit(const Show& show, const Sequence& in) {
    const SequenceHead head = random_head(show, Manner::careless);
    switch (below(5)) {
        case 4:
            return shift_sequence(show, in.id, careless_time());
        case 0:
            return add_sequence(show, head.name, head.kind, head.length);
        case 1:
            return remove_sequence(show, in.id);
        case 2:
            return set_sequence_head(show, in.id, head);
        default:
            return rename_show(show, *random_text());
    }
}

Edit rig_edit(const Show& show) {
    const Rig& rig = show.rig;
    switch (below(17)) {
        case 0:
            return set_air_plant(show, random_part<AirPlant>(Manner::careless));
        case 1:
            return set_sensor(show, random_part<Sensor>(Manner::careless));
        case 2:
            return set_speaker(show, random_part<Speaker>(Manner::careless));
        case 3:
            return add_channel(show, filled(Channel{}, show, fill_channel));
        case 4:
            return set_channel(show, filled(thing_to_set(rig.channels), show, fill_channel));
        case 5:
            return move_channel(show, random_id(rig.channels, Manner::careless),
                                static_cast<std::size_t>(below(8)));
        case 6:
            return remove_channel(show, random_id(rig.channels, Manner::careless));
        case 7:
            return add_actuator(show, filled(Actuator{}, show, fill_actuator));
        case 8:
            return set_actuator(show, filled(thing_to_set(rig.actuators), show, fill_actuator));
        case 9:
            return remove_actuator(show, random_id(rig.actuators, Manner::careless));
        case 10:
            return add_board(show, filled(Board{}, show, fill_board));
        case 12:
            return set_night(show, random_night(Manner::careless));
        case 13:
            return add_supply(show, filled(Supply{}, show, fill_supply));
        case 14:
            return set_supply(show, filled(thing_to_set(rig.supplies), show, fill_supply));
        case 15:
            return remove_supply(show, random_id(rig.supplies, Manner::careless));
        case 11:
            return set_board(show, filled(thing_to_set(rig.boards), show, fill_board));
        default:
            return remove_board(show, random_id(rig.boards, Manner::careless));
    }
}

Edit make_edit(const Show& show) {
    Sequence nowhere;
    nowhere.id.value = 4'000'000'000U;
    const Sequence& in = one_in(20) ? nowhere : one_of(show.sequences);
    switch (below(4)) {
        case 0:
            return cue_edit(show, in);
        case 1:
            return mark_or_clip_edit(show, in);
        case 2:
            return sequence_edit(show, in);
        default:
            return rig_edit(show);
    }
}

}  // namespace

rc::Gen<std::string> random_text() {
    static const std::vector<std::string> pieces{"Lantern",
                                                 "Keeper",
                                                 "a\"b\"",
                                                 "line\nbreak",
                                                 "tab\t",
                                                 "back\\slash",
                                                 "\u00c4rmel",
                                                 "\u706f\u53f0",
                                                 "\u043c\u0430\u044f\u043a",
                                                 "\u0641\u0646\u0627\u0631",
                                                 "\U0001f426",
                                                 "e\u0301",
                                                 "\x01",
                                                 "\x7f",
                                                 "\u2028",
                                                 " ",
                                                 ",",
                                                 ";",
                                                 "=1+1",
                                                 "</b>",
                                                 "2",
                                                 ""};
    return rc::gen::exec([] {
        std::string text;
        for (int count = below(4); count > 0; --count) {
            text += one_of(pieces);
        }
        return text;
    });
}

rc::Gen<Show> random_show() {
    return rc::gen::exec(make_show);
}

rc::Gen<Edit> random_edit(const Show& show) {
    return rc::gen::exec([show] { return make_edit(show); });
}

rc::Gen<std::vector<Edit>> random_edits(const Show& show) {
    return rc::gen::exec([show] {
        Show now = show;
        std::vector<Edit> edits;
        for (int count = below(12); count > 0; --count) {
            edits.push_back(make_edit(now));
            apply(edits.back(), now);
        }
        return edits;
    });
}

}  // namespace gasp::testing
