// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/mix_report.hpp"

#include "core/sound/mix.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gasp {

namespace {

constexpr std::int64_t block_frames = 8192;

/// What is found sample by sample.
struct Samples {
    float heard_from = static_cast<float>(std::pow(10.0, heard_from_dbfs / 20.0));
    float peak = 0.0F;
    std::int64_t clipped = 0;
    std::int64_t seen = 0;
    std::optional<std::int64_t> first_heard;  ///< index among the samples

    void add(std::span<const float> samples) {
        for (const float sample : samples) {
            const float size = std::fabs(sample);
            peak = std::max(peak, size);
            clipped += size > 1.0F ? 1 : 0;
            if (!first_heard && size >= heard_from) {
                first_heard = seen;
            }
            ++seen;
        }
    }
};

}  // namespace

MixReport run_mix(const Sequence& sequence, const std::filesystem::path& show_folder, int rate,
                  std::int64_t from, const MixSink& sink, const std::atomic<bool>& cancel,
                  const std::function<void(double)>& progress) {
    Mix mix = Mix::open(sequence, show_folder, rate);
    MixReport report;
    report.rate = rate;
    report.problems = mix.problems();
    mix.seek(from);
    constexpr std::array stereo{SpeakerPosition::left, SpeakerPosition::right};
    LoudnessMeter meter(rate, stereo);
    Samples found;
    std::vector<float> block(2 * block_frames);
    const std::int64_t all = std::max<std::int64_t>(mix.frames() - from, 0);
    while (report.frames < all && !cancel) {
        const std::int64_t frames = std::min(block_frames, all - report.frames);
        const std::span part = std::span(block).first(2 * static_cast<std::size_t>(frames));
        mix.read(part);
        found.add(part);
        meter.add(part);
        if (sink && !sink(part)) {
            break;
        }
        report.frames += frames;
        if (progress) {
            progress(static_cast<double>(report.frames) / static_cast<double>(all));
        }
    }
    report.loudness_lufs = meter.lufs();
    report.loudest = meter.loudest();
    report.true_peak_dbtp = meter.true_peak_dbtp();
    report.peak_dbfs = decibels(static_cast<double>(found.peak));
    report.clipped_samples = found.clipped;
    const auto time_of = [&](std::int64_t frame) {
        return Micros{std::llround(static_cast<double>(from + frame) * 1e6 / rate)};
    };
    if (found.first_heard) {
        report.first_sound = time_of(*found.first_heard / 2);
    }
    if (report.loudest) {
        report.loudest->at += time_of(0);
    }
    return report;
}

MixReport report_of_mix(const Sequence& sequence, const std::filesystem::path& show_folder,
                        const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    return run_mix(sequence, show_folder, mix_rate, 0, {}, cancel, progress);
}

MixReport report_of_clip(const SoundClip& clip, const std::filesystem::path& show_folder,
                         const std::atomic<bool>& cancel, const std::function<void(double)>& progress) {
    Sequence alone;
    alone.clips = {clip};
    alone.clips.front().start = Micros{0};
    alone.length = clip.length;
    MixReport report = report_of_mix(alone, show_folder, cancel, progress);
    if (report.first_sound) {
        *report.first_sound += clip.start;
    }
    if (report.loudest) {
        report.loudest->at += clip.start;
    }
    return report;
}

}  // namespace gasp
