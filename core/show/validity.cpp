// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/validity.hpp"

#include "core/show/fields.hpp"
#include "core/show/limits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <unordered_set>

namespace gasp {
namespace {

// Places are spelled out only for breaches: a show of 100 000 cues has 100 000 of them. `Place` is called
// with the key of a field: std::string(std::string_view).

template <class Thing>
auto place_of(std::string_view kind, const Thing& thing) {
    return [kind, &thing](std::string_view key) {
        return thing.name.empty() ? fmt::format("{} {}: {}", kind, thing.id.value, key)
                                  : fmt::format("{} \"{}\": {}", kind, thing.name, key);
    };
}

template <class Thing>
auto place_of(std::string_view kind, const Thing& thing, const Sequence& in) {
    return [kind, &thing, &in](std::string_view key) {
        return fmt::format("{} {} of sequence \"{}\": {}", kind, thing.id.value, in.name, key);
    };
}

/// Writes down what a show breaches.
class Inspector {
  public:
    explicit Inspector(const Show& show) : show_(show) {}

    std::vector<Error> inspect() {
        inspect_rig();
        if (show_.sequences.empty()) {
            report("the show has no sequence", "sequences", "Add one");
        }
        inspect_names(show_.sequences, "sequence");
        for (const Sequence& sequence : show_.sequences) {
            inspect_sequence(sequence);
        }
        inspect_night();
        return std::move(breaches_);
    }

  private:
    using Ids = std::unordered_set<std::uint32_t>;

    void report(std::string what, std::string where, std::string remedy) {
        breaches_.push_back({std::move(what), std::move(where), std::move(remedy)});
    }

    // Anything -------------------------------------------------------------------------------------------

    template <class Place>
    void inspect_id(std::uint32_t id, Ids& taken, const Place& place) {
        if (id == 0) {
            report("an id is a number from 1 up", place("id"), "Give it an id of its own");
        } else if (!taken.insert(id).second) {
            report(fmt::format("another has the id {} too", id), place("id"), "Give it an id of its own");
        }
        if (id >= show_.next_id) {
            report(fmt::format("next_id is {} and must be above every id", show_.next_id), place("id"),
                   fmt::format("Set next_id above {}", id));
        }
    }

    /// Ids and names of a list that the user orders.
    template <class T>
    void inspect_names(const std::vector<T>& things, std::string_view kind) {
        Ids ids;
        std::unordered_set<std::string_view> names;
        for (const T& thing : things) {
            const auto place = place_of(kind, thing);
            inspect_id(thing.id.value, ids, place);
            if (thing.name.find_first_not_of(" \t\r\n") == std::string::npos) {
                report("the name is empty", place("name"), "Give it a name");
            } else if (!names.insert(thing.name).second) {
                report("another has this name, too", place("name"), "Rename one of them");
            }
        }
    }

    template <class Place>
    void inspect_word(std::size_t word, std::span<const std::string_view> words, const Place& place,
                      std::string_view key) {
        if (word >= words.size()) {
            report("it is none of the known words", place(key), fmt::format("Set it to {}", words.front()));
        }
    }

    template <class Place>
    void inspect_moment(Micros time, const Place& place, std::string_view key) {
        if (time < Micros{0} || time > longest_sequence) {
            report(fmt::format("{} us is outside 0 to 24 h", time.count()), place(key), "Correct the time");
        }
    }

    template <class Place>
    void inspect_length(Micros length, const Place& place, std::string_view key) {
        if (length <= Micros{0} || length > longest_sequence) {
            report(fmt::format("{} us is not above 0 and at most 24 h", length.count()), place(key),
                   "Correct the length");
        }
    }

    template <class Place>
    void inspect_end(Micros start, Micros length, const Place& place, std::string_view key) {
        const bool both_fit =
            std::max(start, length) <= longest_sequence && std::min(start, length) >= Micros{0};
        if (both_fit && start + length > longest_sequence) {
            report("it ends after 24 h", place(key), "Shorten it or start it earlier");
        }
    }

    // The rig --------------------------------------------------------------------------------------------

    template <class T, class Place>
    void inspect_fields(const T& part, const Place& place) {
        for (const ChoiceField<T>& field : fields<T>().choices) {
            inspect_word(field.get(part), field.keys, place, field.key);
        }
        for (const FigureField<T>& field : fields<T>().figures) {
            if (!figure_allowed(field, part)) {
                report(fmt::format("{} is outside {} to {}", *(part.*field.member), field.least, field.most),
                       place(field.key), "Correct it, or leave it out");
            }
        }
        for (const TextField<T>& field : fields<T>().texts) {
            if (!text_allowed(part.*field.member)) {
                report(fmt::format("it is longer than {} bytes, or no plain line of text", longest_text),
                       place(field.key), "Shorten it, or leave it out");
            }
        }
    }

    template <class Place>
    void inspect_supply(const std::optional<SupplyId>& supply, const Place& place, std::string_view key) {
        if (supply && !find(show_, *supply)) {
            report(fmt::format("there is no supply {}", supply->value), place(key), "Leave it out");
        }
    }

    template <class T>
    void inspect_only(const T& part, std::string_view name) {
        inspect_fields(part, [name](std::string_view key) { return fmt::format("{}: {}", name, key); });
    }

    template <class T>
    void inspect_part(const T& part, std::string_view name, const Actuator& of) {
        inspect_fields(part, [&](std::string_view key) {
            return fmt::format("{} of actuator \"{}\": {}", name, of.name, key);
        });
    }

    void inspect_rig() {
        const Rig& rig = show_.rig;
        inspect_only(rig.air_plant, "air plant");
        inspect_only(rig.sensor, "sensor");
        inspect_only(rig.speaker, "speaker");
        inspect_names(rig.actuators, "actuator");
        inspect_names(rig.channels, "channel");
        inspect_names(rig.boards, "board");
        inspect_names(rig.supplies, "supply");
        for (const Actuator& actuator : rig.actuators) {
            for_each_actuator_part([&](std::string_view key, auto, auto member) {
                inspect_part(actuator.*member, key, actuator);
            });
            if (!points_allowed(actuator.linkage.points)) {
                report("the points are not in order of travel, or one is out of range",
                       fmt::format("linkage of actuator \"{}\": points_mm_deg", actuator.name),
                       "Put them in order, each at more travel than the one before");
            }
            if (!timed_allowed(actuator.fit.out_ms) || !timed_allowed(actuator.fit.back_ms)) {
                report("a timed stroke is outside 1 ms to 60 s",
                       fmt::format("fit of actuator \"{}\": out_ms", actuator.name), "Leave it out");
            }
        }
        for (const Board& board : rig.boards) {
            inspect_fields(board, place_of("board", board));
        }
        for (const Supply& supply : rig.supplies) {
            const auto place = place_of("supply", supply);
            inspect_fields(supply, place);
            inspect_supply(supply.fed_from, place, "fed_from");
        }
        for (const Channel& channel : rig.channels) {
            channel_ids_.insert(channel.id.value);
        }
        for (const Channel& channel : rig.channels) {
            inspect_channel(channel);
        }
    }

    void inspect_channel(const Channel& channel) {
        const auto place = place_of("channel", channel);
        inspect_fields(channel, place);
        const auto circuit = [&](std::string_view key) {
            return fmt::format("circuit of channel \"{}\": {}", channel.name, key);
        };
        inspect_fields(channel.circuit, circuit);
        inspect_supply(channel.circuit.supply, circuit, "supply");
        inspect_supply(channel.circuit.returns_to, circuit, "returns_to");
        if (channel.board && !find(show_, *channel.board)) {
            report(fmt::format("there is no board {}", channel.board->value), place("board"), "Leave it out");
        }
        if (channel.output == 0U) {
            report("outputs are counted from 1", place("output"), "Correct it, or leave it out");
        }
        if (channel.actuator && !find(show_, *channel.actuator)) {
            report(fmt::format("there is no actuator {}", channel.actuator->value), place("actuator"),
                   "Leave it out");
        }
        Ids seen;
        for (const ChannelId other : channel.excludes) {
            if (other == channel.id) {
                report("a channel cannot exclude itself", place("excludes"), "Leave it out");
            } else if (!channel_ids_.contains(other.value)) {
                report(fmt::format("there is no channel {}", other.value), place("excludes"), "Leave it out");
            } else if (!seen.insert(other.value).second) {
                report(fmt::format("channel {} is there twice", other.value), place("excludes"),
                       "Leave one out");
            }
        }
    }

    void inspect_night() {
        inspect_only(show_.night, "night");
        if (!hourly_allowed(show_.night.groups_by_hour)) {
            report(fmt::format("more than {} hours, or one outside 0 to {} groups", longest_night_h,
                               most_groups_per_h),
                   "night: groups_by_hour", "Correct it, or leave it out");
        }
        if (!arrivals_allowed(show_.night.arrivals_s)) {
            report("the arrivals do not rise, or one is beyond 24 h", "night: arrivals_s",
                   "Put them in order, in seconds after the doors open");
        }
    }

    // Sequences ------------------------------------------------------------------------------------------

    /// Ids of a list that is kept in their order.
    template <class T>
    void inspect_order(const std::vector<T>& things, std::string_view kind, Ids& ids, const Sequence& in) {
        for (std::size_t i = 0; i < things.size(); ++i) {
            const auto place = place_of(kind, things[i], in);
            inspect_id(things[i].id.value, ids, place);
            if (i > 0 && things[i].id < things[i - 1].id) {
                report("it stands after one of a higher id", place("id"),
                       "Put them in the order of their ids");
            }
        }
    }

    void inspect_sequence(const Sequence& sequence) {
        const auto place = place_of("sequence", sequence);
        inspect_word(static_cast<std::size_t>(sequence.kind), sequence_kind_keys(), place, "kind");
        inspect_length(sequence.length, place, "length_us");
        if (!trigger_after_allowed(sequence.trigger_after_s)) {
            report(fmt::format("{} s is outside 0 to 3600", *sequence.trigger_after_s),
                   place("trigger_after_s"), "Correct it, or leave it out");
        }
        inspect_order(sequence.clips, "clip", clip_ids_, sequence);
        inspect_order(sequence.marks, "mark", mark_ids_, sequence);
        inspect_order(sequence.cues, "cue", cue_ids_, sequence);
        for (const SoundClip& clip : sequence.clips) {
            inspect_clip(sequence, clip);
        }
        for (const Mark& mark : sequence.marks) {
            inspect_moment(mark.time, place_of("mark", mark, sequence), "time_us");
        }
        // Looking marks up supposes their order; where it is broken, that is reported already.
        if (std::ranges::is_sorted(sequence.marks, {}, &Mark::id)) {
            for (const Cue& cue : sequence.cues) {
                inspect_cue(sequence, cue);
            }
        }
    }

    void inspect_clip(const Sequence& sequence, const SoundClip& clip) {
        const auto place = place_of("clip", clip, sequence);
        if (!stays_inside(clip.file)) {
            report("the path leaves the show's folder, or is no plain relative path", place("file"),
                   "Put the sound beside the show and name it by its path from there, with \"/\"");
        }
        inspect_moment(clip.file_length, place, "file_length_us");
        inspect_moment(clip.start, place, "start_us");
        inspect_moment(clip.from, place, "from_us");
        inspect_length(clip.length, place, "length_us");
        inspect_end(clip.start, clip.length, place, "length_us");
        if (!(clip.gain_db >= least_gain_db && clip.gain_db <= most_gain_db)) {
            report(fmt::format("{} is outside {} to {} dB", clip.gain_db, least_gain_db, most_gain_db),
                   place("gain_db"), "Correct it");
        }
        if (clip.lane < 1 || clip.lane > most_sound_lanes) {
            report(fmt::format("there is no sound lane {}, only 1 to {}", clip.lane, most_sound_lanes),
                   place("lane"), "Correct it, or leave it out");
        }
        if (!fades_allowed(clip)) {
            report(
                fmt::format("fades of {} us and {} us do not fit in a clip of {} us", clip.fade_in.count(),
                            clip.fade_out.count(), clip.length.count()),
                place(clip.fade_in < Micros{0} || clip.fade_in > clip.length ? "fade_in_us" : "fade_out_us"),
                "Shorten them");
        }
    }

    void inspect_cue(const Sequence& sequence, const Cue& cue) {
        const auto place = place_of("cue", cue, sequence);
        if (!channel_ids_.contains(cue.channel.value)) {
            report(fmt::format("there is no channel {}", cue.channel.value), place("channel"),
                   "Name one that exists");
        }
        inspect_start(sequence, cue);
        inspect_length(cue.length, place, "length_us");
        if (cue.freedom < Micros{0} || cue.freedom > most_freedom) {
            report(fmt::format("{} us is outside 0 to 60 s", cue.freedom.count()), place("freedom_us"),
                   "Correct it, or leave it out");
        }
        if (cue.flashes && !rate_allowed(cue.flashes->rate_hz)) {
            report(
                fmt::format("{} Hz is not above 0 and at most {}", cue.flashes->rate_hz, fastest_flashes_hz),
                place("rate_hz"), "Correct the rate");
        }
        if (cue.flashes && !duty_allowed(cue.flashes->duty_percent)) {
            report(fmt::format("{} % is outside {} to {}", cue.flashes->duty_percent, least_duty_percent,
                               most_duty_percent),
                   place("duty_percent"), "Correct it");
        }
    }

    void inspect_start(const Sequence& sequence, const Cue& cue) {
        const auto place = place_of("cue", cue, sequence);
        const std::string_view key = cue.mark ? "offset_us" : "start_us";
        if (cue.at < -longest_sequence || cue.at > longest_sequence) {
            report(fmt::format("{} us is beyond 24 h", cue.at.count()), place(key), "Correct the time");
            return;
        }
        const Mark* mark = cue.mark ? find(sequence, *cue.mark) : nullptr;
        if (cue.mark && !mark) {
            report(fmt::format("there is no mark {} in this sequence", cue.mark->value), place("mark"),
                   "Name one that exists, or give the cue a start of its own");
            return;
        }
        if (mark && (mark->time < Micros{0} || mark->time > longest_sequence)) {
            return;
        }
        const Micros start = start_of(sequence, cue);
        inspect_moment(start, place, key);
        inspect_end(start, cue.length, place, "length_us");
    }

    const Show& show_;
    std::vector<Error> breaches_;
    Ids channel_ids_;
    Ids clip_ids_;
    Ids mark_ids_;
    Ids cue_ids_;
};

}  // namespace

std::vector<Error> breaches(const Show& show) {
    return Inspector(show).inspect();
}

bool stays_inside(std::string_view path) {
    const auto refused = [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7f || c == '\\';
    };
    const bool drive = path.size() > 1 && path[1] == ':';
    if (drive || std::ranges::any_of(path, refused)) {
        return false;
    }
    for (std::size_t begin = 0; begin <= path.size();) {
        const std::size_t end = std::min(path.find('/', begin), path.size());
        const std::string_view part = path.substr(begin, end - begin);
        if (part.empty() || part == "." || part == "..") {
            return false;
        }
        begin = end + 1;
    }
    return true;
}

}  // namespace gasp
