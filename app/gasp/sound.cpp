// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/json.hpp"
#include "app/gasp/text_grid.hpp"
#include "app/gasp/verbs.hpp"
#include "core/sound/report.hpp"
#include "core/units/time.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>

namespace gasp {

namespace {

Micros length_of(const SoundReport& report, std::int64_t frames) {
    return Micros{std::llround(static_cast<double>(frames) * 1e6 / report.info.rate)};
}

Json json_of(const std::optional<double>& level) {
    return level ? Json(*level) : Json();
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

std::string text_of(const std::string& file, const SoundReport& report) {
    TextGrid head({TextGrid::Align::left});
    head.add({file});
    TextGrid grid({TextGrid::Align::left, TextGrid::Align::left}, "  ");
    grid.add({"length", fmt::format("{}, {} frames at {} Hz", print_time(length_of(report, report.frames)),
                                    report.frames, report.info.rate)});
    grid.add({"format", report.info.format});
    grid.add({"loudness", level_text(report.loudness_lufs, "LUFS")});
    grid.add({"true peak", level_text(report.true_peak_dbtp, "dBTP")});
    grid.add({"silence first", print_duration(length_of(report, report.leading_silence_frames))});
    for (std::size_t channel = 0; channel < report.channels.size(); ++channel) {
        grid.add({fmt::format("channel {}", channel + 1), channel_text(report.channels[channel])});
    }
    return head.text() + grid.text();
}

}  // namespace

Result<Outcome> run(const SoundOptions& options) {
    Outcome outcome;
    outcome.sources.assign(options.files.begin(), options.files.end());
    Json json = Json::array();
    for (const std::string& file : options.files) {
        const Result<SoundReport> report = sound_report(file);
        if (!report) {
            outcome.messages.push_back(report.error().text());
            outcome.code = ExitCode::unusable;
            continue;
        }
        if (report->frames < report->info.frames) {
            outcome.messages.push_back(
                fmt::format("{}: it is cut or damaged after {}. Take another copy of it.", file,
                            print_time(length_of(*report, report->frames))));
            outcome.code = ExitCode::unusable;
        }
        outcome.text += (outcome.text.empty() ? "" : "\n") + text_of(file, *report);
        json.push_back(json_of(file, *report));
    }
    if (options.json) {
        outcome.text = json_text(json);
    }
    return outcome;
}

}  // namespace gasp
