// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/report.hpp"

#include <ebur128.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <span>
#include <utility>

namespace gasp {

namespace {

constexpr std::size_t block_frames = 8192;
constexpr double silence_below_peak = 0.01;  // -40 dB

struct DestroyMeter {
    void operator()(ebur128_state* meter) const { ebur128_destroy(&meter); }
};
using Meter = std::unique_ptr<ebur128_state, DestroyMeter>;

/// The places that weigh as BS.1770 has it: surrounds more, low frequencies not at all, all others alike.
int place_of(SpeakerPosition position) {
    switch (position) {
        case SpeakerPosition::left:
            return EBUR128_LEFT;
        case SpeakerPosition::right:
            return EBUR128_RIGHT;
        case SpeakerPosition::low_frequency:
            return EBUR128_UNUSED;
        case SpeakerPosition::left_surround:
            return EBUR128_LEFT_SURROUND;
        case SpeakerPosition::right_surround:
            return EBUR128_RIGHT_SURROUND;
        case SpeakerPosition::centre:
        case SpeakerPosition::centre_surround:
        case SpeakerPosition::other:
            break;
    }
    return EBUR128_CENTER;
}

/// Null at rates the library does not take.
Meter meter_for(const SoundInfo& info) {
    Meter meter(ebur128_init(static_cast<unsigned>(info.channels), static_cast<unsigned long>(info.rate),
                             EBUR128_MODE_I | EBUR128_MODE_TRUE_PEAK));
    for (unsigned channel = 0; meter && channel < info.speakers.size(); ++channel) {
        ebur128_set_channel(meter.get(), channel, place_of(info.speakers[channel]));
    }
    return meter;
}

std::optional<double> decibels(double ratio) {
    return ratio > 0.0 ? std::optional(20.0 * std::log10(ratio)) : std::nullopt;
}

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

void take_loudness(ebur128_state* meter, SoundReport& report) {
    double loudness = 0.0;
    if (ebur128_loudness_global(meter, &loudness) == EBUR128_SUCCESS && std::isfinite(loudness)) {
        report.loudness_lufs = loudness;
    }
    double highest = 0.0;
    for (unsigned channel = 0; channel < report.channels.size(); ++channel) {
        double peak = 0.0;
        if (ebur128_true_peak(meter, channel, &peak) == EBUR128_SUCCESS) {
            highest = std::max(highest, peak);
        }
    }
    report.true_peak_dbtp = decibels(highest);
}

}  // namespace

Result<SoundReport> sound_report(const std::filesystem::path& path) {
    Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    SoundReport report;
    report.info = file->info();
    const auto channels = static_cast<std::size_t>(report.info.channels);
    const Meter meter = meter_for(report.info);
    std::vector<Sums> sums(channels);
    std::vector<float> block(block_frames * channels);
    while (const std::int64_t got = file->read(block)) {
        const std::span samples = std::span(block).first(static_cast<std::size_t>(got) * channels);
        add_samples(samples, full_scale(report.info), sums);
        if (meter) {
            ebur128_add_frames_float(meter.get(), samples.data(), static_cast<std::size_t>(got));
        }
        report.frames += got;
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
    if (meter) {
        take_loudness(meter.get(), report);
    }
    report.leading_silence_frames = report.frames;
    if (Result<SoundFile> again = SoundFile::open(path); again && peak > 0.0F) {
        report.leading_silence_frames = frames_before(*again, peak * static_cast<float>(silence_below_peak));
    }
    return report;
}

}  // namespace gasp
