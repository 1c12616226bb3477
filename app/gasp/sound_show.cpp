// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/sound_show.hpp"

#include "app/gasp/json.hpp"
#include "app/gasp/long_work.hpp"
#include "app/gasp/loudest_told.hpp"
#include "app/gasp/open_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "core/file/output_name.hpp"
#include "core/file/show_file.hpp"
#include "core/schedule/jaw_opening.hpp"
#include "core/sound/ear_level.hpp"
#include "core/sound/gather.hpp"
#include "core/sound/jaw.hpp"
#include "core/sound/jaw_score.hpp"
#include "core/sound/mix_file.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <utility>
#include <vector>

namespace gasp {

namespace {

Json json_of(const std::optional<double>& level) {
    return level ? Json(*level) : Json();
}

std::string level_text(const std::optional<double>& level, std::string_view unit) {
    return level ? fmt::format("{:.1f} {}", *level, unit) : "silent";
}

/// What is told of one sequence.
struct Told {
    const Sequence& sequence;
    MixReport mix;
    std::vector<MixReport> clips;                        ///< of sequence.clips
    std::vector<std::pair<std::string, JawScore>> jaws;  ///< of the channels with a jaw and cues for it
    Micros lost{0};                                      ///< to the player's lag
    std::optional<double> at_ear_db;
    std::string file;  ///< written; empty for none
};

Json json_of(const Told& told) {
    Json json{{"sequence", told.sequence.name},
              {"length_us", told.sequence.length.count()},
              {"rate_hz", told.mix.rate},
              {"loudness_lufs", json_of(told.mix.loudness_lufs)},
              {"true_peak_dbtp", json_of(told.mix.true_peak_dbtp)},
              {"peak_dbfs", json_of(told.mix.peak_dbfs)},
              {"clipped_samples", told.mix.clipped_samples},
              {"first_sound_us", told.mix.first_sound ? Json(told.mix.first_sound->count()) : Json()},
              {"lost_to_player_lag_us", told.lost.count()},
              {"level_at_ear_db", json_of(told.at_ear_db)},
              {"file", told.file.empty() ? Json() : Json(told.file)},
              {"clips", Json::array()},
              {"jaws", Json::array()}};
    add_loudest(told.mix.loudest, json);
    for (const auto& [channel, score] : told.jaws) {
        json["jaws"].push_back({{"channel", channel},
                                {"open_share", score.open_share},
                                {"lag_ms", json_of(score.lag_ms)},
                                {"likeness", score.likeness}});
    }
    for (std::size_t i = 0; i < told.clips.size(); ++i) {
        const SoundClip& clip = told.sequence.clips[i];
        json["clips"].push_back({{"id", clip.id.value},
                                 {"file", clip.file},
                                 {"lane", clip.lane},
                                 {"start_us", clip.start.count()},
                                 {"length_us", clip.length.count()},
                                 {"gain_db", clip.gain_db},
                                 {"loudness_lufs", json_of(told.clips[i].loudness_lufs)},
                                 {"true_peak_dbtp", json_of(told.clips[i].true_peak_dbtp)}});
        add_loudest(told.clips[i].loudest, json["clips"].back());
    }
    return json;
}

std::string text_of(const Told& told) {
    TextGrid head({TextGrid::Align::left});
    head.add({told.sequence.name});
    TextGrid grid({TextGrid::Align::left, TextGrid::Align::left}, "  ");
    grid.add({"mix", fmt::format("{} at {} Hz, stereo", print_time(told.sequence.length), told.mix.rate)});
    grid.add({"loudness", level_text(told.mix.loudness_lufs, "LUFS")});
    add_loudest(told.mix.loudest, grid);
    grid.add({"true peak",
              level_text(told.mix.true_peak_dbtp, "dBTP") +
                  (told.mix.clipped_samples > 0 ? fmt::format(", {} samples clip", told.mix.clipped_samples)
                                                : std::string())});
    grid.add({"first sound", told.mix.first_sound ? print_time(*told.mix.first_sound) : "none"});
    grid.add({"at the ear", told.at_ear_db ? fmt::format("about {:.0f} dBA while it sounds", *told.at_ear_db)
                                           : "not known"});
    for (std::size_t i = 0; i < told.clips.size(); ++i) {
        const SoundClip& clip = told.sequence.clips[i];
        grid.add({fmt::format("lane {}", clip.lane),
                  fmt::format("{} at {}, {}, {}", clip.file, print_time(clip.start),
                              level_text(told.clips[i].loudness_lufs, "LUFS"),
                              level_text(told.clips[i].true_peak_dbtp, "dBTP"))});
    }
    for (const auto& [channel, score] : told.jaws) {
        grid.add(
            {"jaw", fmt::format("{}: open for {:.0f} % of the voice{}", channel, 100.0 * score.open_share,
                                score.lag_ms ? fmt::format(", {:.0f} ms {} it", std::abs(*score.lag_ms),
                                                           *score.lag_ms < 0.0 ? "before" : "after")
                                             : std::string())});
    }
    if (!told.file.empty()) {
        grid.add({"written", told.file});
    }
    return head.text() + grid.text();
}

/// How each jaw goes with the sound, as it is simulated. A sound that cannot be listened to is left out.
std::vector<std::pair<std::string, JawScore>> jaws_of(const OpenShow& open, const Sequence& sequence,
                                                      const LongWork& work) {
    std::vector<std::pair<std::string, JawScore>> jaws;
    std::vector<const Channel*> channels;
    for (const Channel& channel : open.show.rig.channels) {
        const auto opens = [&](const Cue& cue) {
            return cue.channel == channel.id && (cue.from_voice || channel.kind == ChannelKind::jaw);
        };
        if (std::ranges::any_of(sequence.cues, opens)) {
            channels.push_back(&channel);
        }
    }
    if (channels.empty()) {
        return jaws;
    }
    std::vector<Heard> heard(sequence.clips.size());
    std::vector<const Envelope*> envelopes;
    for (std::size_t i = 0; i < heard.size(); ++i) {
        Result<Heard> one = listen(open.folder / sequence.clips[i].file, {}, work.stop(), {});
        heard[i] = one ? std::move(*one) : Heard{};
        envelopes.push_back(&heard[i].envelope);
    }
    const Envelope along = heard_along(sequence, envelopes);
    AirMemo memo;
    const SequenceRun run = work_out(open.show, sequence, memo);
    for (const Channel* channel : channels) {
        const std::vector<float> opening =
            jaw_opening(open.show, run, channel->id, {}, Envelope::step, along.dbfs.size());
        jaws.emplace_back(channel->name, jaw_score(along, opening, JawOptions{}.open_db));
    }
    return jaws;
}

std::size_t place_in(const Show& show, const Sequence& sequence) {
    return static_cast<std::size_t>(&sequence - show.sequences.data()) + 1;
}

Result<void> write(const SoundOptions& options, const OpenShow& open, Told& told, LongWork& work) {
    const MixDelivery delivery{options.mix_form, options.mix_rate, player_lag(open.show.rig.speaker)};
    const std::filesystem::path path =
        std::filesystem::path(options.mix_folder) /
        mix_file_name(place_in(open.show, told.sequence), told.sequence.name, delivery.form);
    return check_output_name(path, open.files)
        .and_then([&] {
            return write_mix(told.sequence, open.folder, delivery, path, work.stop(), work.progress());
        })
        .map([&](const MixReport&) { told.file = path.string(); });
}

void add_messages(const OpenShow& open, const Told& told, Outcome& outcome) {
    const std::string& name = told.sequence.name;
    for (const Error& problem : told.mix.problems) {
        outcome.messages.push_back(problem.text());
        outcome.code = ExitCode::unusable;
    }
    if (told.mix.clipped_samples > 0) {
        outcome.messages.push_back(
            fmt::format("{}: the mix is {:.1f} dB above full scale and clips. Lower its clips by as much.",
                        name, *told.mix.peak_dbfs));
    }
    if (told.lost > Micros{0}) {
        outcome.messages.push_back(
            fmt::format("{}: the first {} of its sound are lost, the player being that late. Begin sound and "
                        "cues later by as much.",
                        name, print_duration(std::chrono::ceil<std::chrono::milliseconds>(told.lost))));
    }
    if (!told.file.empty() && !open.show.rig.speaker.player_lag_ms) {
        outcome.messages.push_back(fmt::format(
            "{}: the player's lag is not known and taken as none. Fill it in under speaker.", name));
    }
}

/// A copy of the show and its sounds in another folder, where no show of that name is yet.
Result<Outcome> gather(OpenShow open, const SoundOptions& options) {
    const std::filesystem::path folder = options.gather_folder;
    const std::filesystem::path target = folder / std::filesystem::path(options.files.front()).filename();
    std::error_code error;
    if (std::filesystem::exists(target, error)) {
        return fail("a show of this name is there already", target.string(), "Give an empty folder");
    }
    std::filesystem::create_directories(folder, error);
    const LongWork work("gather");
    const Result<Gathered> gathered = gather_sounds(open.show, open.folder, folder, work.stop());
    if (!gathered) {
        return tl::unexpected(gathered.error());
    }
    apply(gathered->renaming, open.show);
    if (auto saved = save_show(open.show, target); !saved) {
        return tl::unexpected(saved.error());
    }
    Outcome outcome;
    outcome.sources = open.files;
    Json json{{"show", target.string()}, {"sounds_copied", gathered->copied}, {"missing", Json::array()}};
    for (const MissingSound& sound : gathered->missing) {
        outcome.messages.push_back(fmt::format("{}: this sound is missing and was left out.", sound.file));
        outcome.code = ExitCode::unusable;
        json["missing"].push_back(sound.file);
    }
    outcome.text = options.json ? json_text(json)
                                : fmt::format("{}: the show, and {} sound{} copied\n", target.string(),
                                              gathered->copied, gathered->copied == 1 ? "" : "s");
    return outcome;
}

}  // namespace

Result<Outcome> sound_of_show(const SoundOptions& options) {
    ShowOptions which;
    which.show = options.files.front();
    which.sequence = options.sequence;
    Result<OpenShow> open = open_show(which);
    if (!open) {
        return tl::unexpected(open.error());
    }
    if (!options.gather_folder.empty()) {
        return gather(std::move(*open), options);
    }
    Outcome outcome;
    outcome.sources = open->files;
    Json json = Json::array();
    if (!options.mix_folder.empty()) {
        std::error_code error;
        std::filesystem::create_directories(options.mix_folder, error);
    }
    for (const Sequence* sequence : open->sequences) {
        LongWork work("mix");
        Told told{
            *sequence, report_of_mix(*sequence, open->folder, work.stop(), work.progress()), {}, {}, {}, {},
            {}};
        for (const SoundClip& clip : sequence->clips) {
            told.clips.push_back(report_of_clip(clip, open->folder, work.stop(), {}));
        }
        told.jaws = jaws_of(*open, *sequence, work);
        const Speaker& speaker = open->show.rig.speaker;
        told.lost = lost_to_lag(told.mix, player_lag(speaker));
        told.at_ear_db =
            told.mix.loudness_lufs ? level_at_ear(speaker, *told.mix.loudness_lufs) : std::nullopt;
        if (!options.mix_folder.empty() && !sequence->clips.empty()) {
            if (const auto written = write(options, *open, told, work); !written) {
                return tl::unexpected(written.error());
            }
        }
        if (work.stop()) {
            outcome.code = ExitCode::stopped;
            return outcome;
        }
        add_messages(*open, told, outcome);
        outcome.text += (outcome.text.empty() ? "" : "\n") + text_of(told);
        json.push_back(json_of(told));
    }
    if (options.json) {
        outcome.text = json_text(json);
    }
    return outcome;
}

}  // namespace gasp
