// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/clip_reader.hpp"

#include <fmt/format.h>
#include <samplerate.h>

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

namespace gasp {

namespace {

constexpr std::size_t block_frames = 1024;
/// More than half the length of the converter's filter, in frames of the lower rate.
constexpr std::int64_t filter_reach = 64;

double ratio_of(int from, int to) {
    return static_cast<double>(to) / from;
}

/// The frame of the file that is heard at the clip's first frame in the mix. Where the rates agree it follows
/// from where the file's own start falls on the ruler, which trimming and splitting leave as it is: the two
/// parts of a split clip join without a frame lost or doubled.
std::int64_t first_frame(const SoundClip& clip, std::int64_t start, int own_rate, int rate) {
    return own_rate == rate ? start + frames_at(clip.from - clip.start, rate)
                            : frames_at(clip.from, own_rate);
}

}  // namespace

StereoSource::StereoSource(SoundFile file, std::filesystem::path path)
    : file_(std::move(file)),
      path_(std::move(path)),
      gains_(stereo_gains(file_.info().speakers)),
      block_(block_frames * gains_.size()) {}

void StereoSource::read(std::span<float> stereo) {
    while (!stereo.empty()) {
        const std::size_t frames = std::min(block_frames, stereo.size() / 2);
        std::size_t got = 0;
        if (!ended_) {
            const std::span wanted = std::span(block_).first(frames * gains_.size());
            got = static_cast<std::size_t>(file_.read(wanted));
            to_stereo(wanted.first(got * gains_.size()), gains_, stereo.first(2 * got));
            position_ += static_cast<std::int64_t>(got);
            ended_ = got < frames;
        }
        std::ranges::fill(stereo.subspan(2 * got, 2 * (frames - got)), 0.0F);
        stereo = stereo.subspan(2 * frames);
    }
}

void StereoSource::seek(std::int64_t frame) {
    if (frame == position_ && !ended_) {
        return;
    }
    ended_ = frame >= file_.info().frames;
    position_ = frame;
    if (ended_ || file_.seek(frame)) {
        return;
    }
    Result<SoundFile> again = SoundFile::open(path_);
    ended_ = !again || again->info().channels != file_.info().channels;
    if (ended_) {
        return;
    }
    file_ = std::move(*again);
    for (std::int64_t skipped = 0; skipped < frame && !ended_;) {
        const std::int64_t wanted = std::min(static_cast<std::int64_t>(block_frames), frame - skipped);
        const std::int64_t got =
            file_.read(std::span(block_).first(static_cast<std::size_t>(wanted) * gains_.size()));
        ended_ = got < wanted;
        skipped += got;
    }
}

void ClipReader::DeleteConverter::operator()(SRC_STATE_tag* state) const {
    src_delete(state);
}

Result<ClipReader> ClipReader::open(const SoundClip& clip, const std::filesystem::path& path, int rate) {
    Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    const int own_rate = file->info().rate;
    ClipReader reader(clip, StereoSource(std::move(*file), path), rate);
    if (own_rate != rate) {
        int problem = 0;
        if (src_is_valid_ratio(ratio_of(own_rate, rate)) != 0) {
            reader.converter_.reset(src_new(SRC_SINC_MEDIUM_QUALITY, 2, &problem));
        }
        if (!reader.converter_) {
            return fail(fmt::format("A rate of {} Hz cannot be converted to {} Hz", own_rate, rate),
                        path.string(), "Convert the file to 44100 or 48000 Hz");
        }
        reader.input_.resize(2 * block_frames);
    }
    reader.seek(0);
    return reader;
}

ClipReader::ClipReader(const SoundClip& clip, StereoSource source, int rate)
    : source_(std::move(source)),
      rate_(rate),
      gain_(clip, rate),
      from_(first_frame(clip, gain_.start(), source_.rate(), rate)),
      block_(2 * block_frames) {}

void ClipReader::seek(std::int64_t frame) {
    const std::int64_t into = std::max<std::int64_t>(0, frame - gain_.start());
    if (frame >= gain_.end()) {
        return;
    }
    if (!converter_) {
        source_.seek(from_ + into);
        return;
    }
    // The converter is started where an output frame falls on an input frame, so that every later one has the
    // phase it has when the clip is read from its beginning, and early enough for its filter to be full.
    const int divisor = std::gcd(rate_, source_.rate());
    const std::int64_t output_step = rate_ / divisor;
    const std::int64_t input_step = source_.rate() / divisor;
    const auto reach = static_cast<std::int64_t>(
        std::ceil(static_cast<double>(filter_reach) * std::max(1.0, ratio_of(source_.rate(), rate_))));
    const std::int64_t steps = std::max<std::int64_t>(0, into - reach) / output_step;
    source_.seek(from_ + steps * input_step);
    src_reset(converter_.get());
    src_set_ratio(converter_.get(), ratio_of(source_.rate(), rate_));
    unused_ = {};
    std::int64_t ahead = into - steps * output_step;
    while (ahead > 0) {
        const auto frames = std::min(static_cast<std::int64_t>(block_frames), ahead);
        convert(std::span(block_).first(2 * static_cast<std::size_t>(frames)));
        ahead -= frames;
    }
}

void ClipReader::add_to(std::span<float> stereo, std::int64_t frame) {
    const auto size = static_cast<std::int64_t>(stereo.size() / 2);
    const std::int64_t first = std::max(frame, gain_.start());
    const std::int64_t last = std::min(frame + size, gain_.end());
    if (first >= last) {
        return;
    }
    stereo = stereo.subspan(2 * static_cast<std::size_t>(first - frame),
                            2 * static_cast<std::size_t>(last - first));
    for (std::int64_t at = first; !stereo.empty();) {
        const std::span part = std::span(block_).first(std::min(block_.size(), stereo.size()));
        pull(part);
        add(part, stereo, at);
        at += static_cast<std::int64_t>(part.size() / 2);
        stereo = stereo.subspan(part.size());
    }
}

void ClipReader::add(std::span<const float> part, std::span<float> sum, std::int64_t first) const {
    const auto frames = static_cast<std::int64_t>(part.size() / 2);
    if (gain_.even(first, first + frames)) {
        std::transform(
            part.begin(), part.end(), sum.begin(), sum.begin(),
            [gain = gain_.at(first)](float sample, float before) { return before + gain * sample; });
        return;
    }
    for (std::size_t i = 0; i < part.size(); i += 2) {
        const float gain = gain_.at(first + static_cast<std::int64_t>(i / 2));
        sum[i] += gain * part[i];
        sum[i + 1] += gain * part[i + 1];
    }
}

void ClipReader::pull(std::span<float> stereo) {
    if (converter_) {
        convert(stereo);
    } else {
        source_.read(stereo);
    }
}

void ClipReader::convert(std::span<float> stereo) {
    while (!stereo.empty()) {
        if (unused_.empty()) {
            source_.read(input_);
            unused_ = input_;
        }
        SRC_DATA data{};
        data.data_in = unused_.data();
        data.input_frames = static_cast<long>(unused_.size() / 2);
        data.data_out = stereo.data();
        data.output_frames = static_cast<long>(stereo.size() / 2);
        data.src_ratio = ratio_of(source_.rate(), rate_);
        const bool converted = src_process(converter_.get(), &data) == 0;
        if (!converted || (data.input_frames_used == 0 && data.output_frames_gen == 0)) {
            std::ranges::fill(stereo, 0.0F);
            return;
        }
        unused_ = unused_.subspan(2 * static_cast<std::size_t>(data.input_frames_used));
        stereo = stereo.subspan(2 * static_cast<std::size_t>(data.output_frames_gen));
    }
}

}  // namespace gasp
