// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/report.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace gasp {

namespace {

constexpr std::size_t block_frames = 8192;
constexpr double silence_below_peak = 0.01;  // -40 dB

struct Sums {
    float peak = 0.0F;
    double squares = 0.0;
    std::int64_t clipped = 0;
};

/// From this size on a sample counts as clipped.
float full_scale(const SoundInfo& info) {
    return info.bits == 0 ? 1.0F : 1.0F - static_cast<float>(std::ldexp(1.0, 1 - info.bits));
}

void add_samples(std::span<const float> samples, float clip_from, std::span<Sums> channels) {
    for (std::size_t i = 0; i < samples.size(); i += channels.size()) {
        for (std::size_t channel = 0; channel < channels.size(); ++channel) {
            const float size = std::fabs(samples[i + channel]);
            Sums& sums = channels[channel];
            sums.peak = std::max(sums.peak, size);
            sums.squares += static_cast<double>(size) * size;
            sums.clipped += size >= clip_from ? 1 : 0;
        }
    }
}

ChannelLevel level_of(const Sums& sums, std::int64_t frames) {
    return {decibels(sums.peak), decibels(std::sqrt(sums.squares / static_cast<double>(frames))),
            sums.clipped};
}

/// Frames before the first sample of at least this size.
std::int64_t frames_before(SoundFile& file, float size) {
    const auto channels = static_cast<std::size_t>(file.info().channels);
    std::vector<float> block(block_frames * channels);
    std::int64_t before = 0;
    while (const std::int64_t got = file.read(block)) {
        const std::span samples = std::span(block).first(static_cast<std::size_t>(got) * channels);
        const auto loud =
            std::ranges::find_if(samples, [size](float sample) { return std::fabs(sample) >= size; });
        before += (loud - samples.begin()) / static_cast<std::ptrdiff_t>(channels);
        if (loud != samples.end()) {
            break;
        }
    }
    return before;
}

}  // namespace

Result<SoundReport> sound_report(const std::filesystem::path& path, const std::atomic<bool>& cancel,
                                 const std::function<void(double)>& progress) {
    Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    SoundReport report;
    report.info = file->info();
    const auto channels = static_cast<std::size_t>(report.info.channels);
    LoudnessMeter meter(report.info.rate, report.info.speakers);
    std::vector<Sums> sums(channels);
    std::vector<float> block(block_frames * channels);
    while (const std::int64_t got = file->read(block)) {
        if (cancel) {
            return fail("stopped before its end", path.string(), "Start it again");
        }
        const std::span samples = std::span(block).first(static_cast<std::size_t>(got) * channels);
        add_samples(samples, full_scale(report.info), sums);
        meter.add(samples);
        report.frames += got;
        if (progress) {
            progress(
                std::min(static_cast<double>(report.frames) / static_cast<double>(report.info.frames), 1.0));
        }
    }
    if (report.frames == 0) {
        return fail("Nothing in the file can be decoded", path.string(),
                    "Copy the file again from where it came");
    }
    float peak = 0.0F;
    for (const Sums& channel : sums) {
        report.channels.push_back(level_of(channel, report.frames));
        peak = std::max(peak, channel.peak);
    }
    report.loudness_lufs = meter.lufs();
    report.loudest = meter.loudest();
    report.true_peak_dbtp = meter.true_peak_dbtp();
    report.leading_silence_frames = report.frames;
    if (Result<SoundFile> again = SoundFile::open(path); again && peak > 0.0F) {
        report.leading_silence_frames = frames_before(*again, peak * static_cast<float>(silence_below_peak));
    }
    return report;
}

}  // namespace gasp
