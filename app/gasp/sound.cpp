// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/long_work.hpp"
#include "app/gasp/loudest_told.hpp"
#include "app/gasp/sound_show.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/sound/listening.hpp"
#include "core/sound/player_lag.hpp"
#include "core/sound/report.hpp"
#include "core/sound/words.hpp"
#include "core/units/time.hpp"

#include <fmt/format.h>

#include <atomic>
#include <cmath>
#include <functional>
#include <optional>
#include <vector>

namespace gasp {

namespace {

Micros length_of(const SoundReport& report, std::int64_t frames) {
    return Micros{std::llround(static_cast<double>(frames) * 1e6 / report.info.rate)};
}

Json json_of(const std::optional<double>& level) {
    return level ? Json(*level) : Json();
}

/// What is to be found in a file along its time.
struct Moments {
    std::vector<Micros> onsets;
    std::vector<Word> words;
    std::optional<LoudMoment> loudest;
};

Result<Moments> moments_of(const std::string& file, const SoundOptions& options,
                           const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    Result<Heard> heard = listen(file, options.onsets, cancel, progress);
    if (!heard) {
        return tl::unexpected(heard.error());
    }
    Result<std::vector<Word>> words = words_of(heard->envelope, options.words);
    if (!words) {
        return tl::unexpected(words.error());
    }
    return Moments{std::move(heard->onsets), std::move(*words), loudest_of(heard->envelope)};
}

void add_moments(const Moments& moments, Json& json) {
    json["onsets_us"] = Json::array();
    for (const Micros onset : moments.onsets) {
        json["onsets_us"].push_back(onset.count());
    }
    json["words"] = Json::array();
    for (const Word& word : moments.words) {
        json["words"].push_back({{"begin_us", word.begin.count()},
                                 {"end_us", word.end.count()},
                                 {"loudest_dbfs", word.loudest_dbfs}});
    }
    json["loudest_us"] = moments.loudest ? Json(moments.loudest->time.count()) : Json();
}

Json json_of(const std::string& file, const SoundReport& report) {
    Json json{{"file", file},
              {"format", report.info.format},
              {"length_us", length_of(report, report.frames).count()},
              {"frames", report.frames},
              {"frames_claimed", report.info.frames},
              {"rate_hz", report.info.rate},
              {"loudness_lufs", json_of(report.loudness_lufs)},
              {"true_peak_dbtp", json_of(report.true_peak_dbtp)},
              {"leading_silence_us", length_of(report, report.leading_silence_frames).count()},
              {"channels", Json::array()}};
    add_loudest(report.loudest, json);
    for (const ChannelLevel& channel : report.channels) {
        json["channels"].push_back({{"peak_dbfs", json_of(channel.peak_dbfs)},
                                    {"rms_dbfs", json_of(channel.rms_dbfs)},
                                    {"clipped_samples", channel.clipped_samples}});
    }
    return json;
}

std::string level_text(const std::optional<double>& level, std::string_view unit) {
    return level ? fmt::format("{:.1f} {}", *level, unit) : "none";
}

std::string channel_text(const ChannelLevel& channel) {
    if (!channel.peak_dbfs) {
        return "silent";
    }
    std::string text = fmt::format("peak {}, RMS {}", level_text(channel.peak_dbfs, "dBFS"),
                                   level_text(channel.rms_dbfs, "dBFS"));
    if (channel.clipped_samples > 0) {
        text += fmt::format(", {} samples clipped", channel.clipped_samples);
    }
    return text;
}

void add_moments(const Moments& moments, TextGrid& grid) {
    if (moments.loudest) {
        grid.add({"loudest at", fmt::format("{}, RMS {:.1f} dBFS", print_time(moments.loudest->time),
                                            moments.loudest->dbfs)});
    }
    for (const Word& word : moments.words) {
        grid.add({&word == moments.words.data() ? "words" : "",
                  fmt::format("{} to {}, RMS up to {:.1f} dBFS", print_time(word.begin), print_time(word.end),
                              word.loudest_dbfs)});
    }
    for (std::size_t i = 0; i < moments.onsets.size(); ++i) {
        grid.add({i == 0 ? "onsets" : "", print_time(moments.onsets[i])});
    }
}

std::string text_of(const std::string& file, const SoundReport& report, const Moments& moments) {
    TextGrid head({TextGrid::Align::left});
    head.add({file});
    TextGrid grid({TextGrid::Align::left, TextGrid::Align::left}, "  ");
    grid.add({"length", fmt::format("{}, {} frames at {} Hz", print_time(length_of(report, report.frames)),
                                    report.frames, report.info.rate)});
    grid.add({"format", report.info.format});
    grid.add({"loudness", level_text(report.loudness_lufs, "LUFS")});
    add_loudest(report.loudest, grid);
    grid.add({"true peak", level_text(report.true_peak_dbtp, "dBTP")});
    grid.add({"silence first", print_duration(length_of(report, report.leading_silence_frames))});
    for (std::size_t channel = 0; channel < report.channels.size(); ++channel) {
        grid.add({fmt::format("channel {}", channel + 1), channel_text(report.channels[channel])});
    }
    add_moments(moments, grid);
    return head.text() + grid.text();
}

/// The lag of a sound player as a recording has it.
Result<Outcome> lag_outcome(const SoundOptions& options) {
    const Result<HeardLag> heard = lag_in(options.lag_recording, options.first_sound);
    if (!heard) {
        return tl::unexpected(heard.error());
    }
    Outcome outcome;
    outcome.sources.emplace_back(options.lag_recording);
    if (options.json) {
        outcome.text = json_text(Json{
            {"player_lag_ms", heard->lag_ms}, {"spread_ms", heard->spread_ms}, {"each_ms", heard->each_ms}});
        return outcome;
    }
    outcome.text =
        fmt::format("player lag {:.0f} ms, the middle of {} start{}, {:.0f} ms apart\n", heard->lag_ms,
                    heard->each_ms.size(), heard->each_ms.size() == 1 ? "" : "s", heard->spread_ms);
    return outcome;
}

}  // namespace

Result<Outcome> run(const SoundOptions& options) {
    if (!options.lag_recording.empty()) {
        return lag_outcome(options);
    }
    if (options.files.size() == 1 && options.files.front().ends_with(".gasp")) {
        return sound_of_show(options);
    }
    if (!options.gather_folder.empty()) {
        return fail("sounds are gathered for one show", options.files.front(), "Give one show file");
    }
    if (!options.mix_folder.empty() || options.sequence) {
        return fail("a mix is of one show", options.files.front(), "Give one show file");
    }
    Outcome outcome;
    outcome.sources.assign(options.files.begin(), options.files.end());
    Json json = Json::array();
    for (const std::string& file : options.files) {
        LongWork work("sound");
        const auto half = [told = work.progress()](double begin) {
            return [told, begin](double share) { told(begin + share / 2.0); };
        };
        const Result<SoundReport> report = sound_report(file, work.stop(), half(0.0));
        const Result<Moments> moments =
            report ? moments_of(file, options, work.stop(), half(0.5)) : tl::unexpected(report.error());
        if (work.stop()) {
            outcome.code = ExitCode::stopped;
            return outcome;
        }
        if (!moments) {
            outcome.messages.push_back(moments.error().text());
            outcome.code = ExitCode::unusable;
            continue;
        }
        if (report->frames < report->info.frames) {
            outcome.messages.push_back(
                fmt::format("{}: it is cut or damaged after {}. Take another copy of it.", file,
                            print_time(length_of(*report, report->frames))));
            outcome.code = ExitCode::unusable;
        }
        outcome.text += (outcome.text.empty() ? "" : "\n") + text_of(file, *report, *moments);
        json.push_back(json_of(file, *report));
        add_moments(*moments, json.back());
    }
    if (options.json) {
        outcome.text = json_text(json);
    }
    return outcome;
}

}  // namespace gasp
