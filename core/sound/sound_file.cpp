// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/sound_file.hpp"

#include "core/sound/kernels.hpp"
#include "core/sound/sound_format.hpp"
#include "core/sound/vorbis_reader.hpp"

#include <fmt/format.h>
#include <sndfile.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace gasp {

namespace {

constexpr int most_channels = 64;
constexpr int highest_rate = 768'000;
constexpr std::int64_t longest_counted_s = 24 * 3600;
constexpr std::size_t scratch_frames = 1024;

struct CloseSound {
    void operator()(SNDFILE* file) const { sf_close(file); }
};
using OpenSound = std::unique_ptr<SNDFILE, CloseSound>;

constexpr const char* other_file_remedy = "Choose another file, or convert it to WAV, FLAC or Ogg";

/// The file's size, or why it cannot be a sound file.
Result<std::int64_t> size_of(const std::filesystem::path& path) {
    std::error_code problem;
    const auto status = std::filesystem::status(path, problem);
    if (!std::filesystem::exists(status)) {
        return fail("There is no such sound file", path.string(),
                    "Put the file back, or choose it where it is now");
    }
    if (!std::filesystem::is_regular_file(status)) {
        return fail("This is not a file of sound but a folder or device", path.string(), other_file_remedy);
    }
    const auto size = std::filesystem::file_size(path, problem);
    if (problem) {
        return fail("The size of the file cannot be read: " + problem.message(), path.string(),
                    "Check the file's permissions");
    }
    if (size == 0) {
        return fail("The sound file is empty", path.string(), "Copy or record it again");
    }
    return static_cast<std::int64_t>(size);
}

SpeakerPosition position_of(int place) {
    switch (place) {
        case SF_CHANNEL_MAP_LEFT:
        case SF_CHANNEL_MAP_FRONT_LEFT:
        case SF_CHANNEL_MAP_FRONT_LEFT_OF_CENTER:
            return SpeakerPosition::left;
        case SF_CHANNEL_MAP_RIGHT:
        case SF_CHANNEL_MAP_FRONT_RIGHT:
        case SF_CHANNEL_MAP_FRONT_RIGHT_OF_CENTER:
            return SpeakerPosition::right;
        case SF_CHANNEL_MAP_MONO:
        case SF_CHANNEL_MAP_CENTER:
        case SF_CHANNEL_MAP_FRONT_CENTER:
            return SpeakerPosition::centre;
        case SF_CHANNEL_MAP_LFE:
            return SpeakerPosition::low_frequency;
        case SF_CHANNEL_MAP_REAR_LEFT:
        case SF_CHANNEL_MAP_SIDE_LEFT:
            return SpeakerPosition::left_surround;
        case SF_CHANNEL_MAP_REAR_RIGHT:
        case SF_CHANNEL_MAP_SIDE_RIGHT:
            return SpeakerPosition::right_surround;
        case SF_CHANNEL_MAP_REAR_CENTER:
            return SpeakerPosition::centre_surround;
        default:
            return SpeakerPosition::other;
    }
}

/// The order in which files that say nothing else hold so many channels: WAVE order, which FLAC shares;
/// Vorbis and Opus have their own (Vorbis I specification, 4.3.9).
std::vector<SpeakerPosition> usual_positions(int channels, bool vorbis_order) {
    using enum SpeakerPosition;
    switch (channels) {
        case 1:
            return {centre};
        case 2:
            return {left, right};
        case 3:
            return vorbis_order ? std::vector{left, centre, right} : std::vector{left, right, centre};
        case 4:
            return {left, right, left_surround, right_surround};
        case 5:
            return vorbis_order ? std::vector{left, centre, right, left_surround, right_surround}
                                : std::vector{left, right, centre, left_surround, right_surround};
        case 6:
            return vorbis_order
                       ? std::vector{left, centre, right, left_surround, right_surround, low_frequency}
                       : std::vector{left, right, centre, low_frequency, left_surround, right_surround};
        case 8:
            if (!vorbis_order) {
                return {left,          right,          centre,        low_frequency,
                        left_surround, right_surround, left_surround, right_surround};
            }
            [[fallthrough]];
        default:
            return std::vector(static_cast<std::size_t>(channels), other);
    }
}

std::vector<SpeakerPosition> positions_of(SNDFILE* file, int channels, bool vorbis_order) {
    std::vector<int> places(static_cast<std::size_t>(channels));
    const int bytes = static_cast<int>(places.size() * sizeof(int));
    if (sf_command(file, SFC_GET_CHANNEL_MAP_INFO, places.data(), bytes) == 0) {
        return usual_positions(channels, vorbis_order);
    }
    std::vector<SpeakerPosition> speakers(places.size());
    std::transform(places.begin(), places.end(), speakers.begin(), position_of);
    return speakers;
}

std::int64_t count_frames(SNDFILE* file, int channels, std::int64_t most) {
    std::vector<short> block(8192 * static_cast<std::size_t>(channels));
    std::int64_t total = 0;
    while (total < most) {
        const sf_count_t got = sf_readf_short(file, block.data(), 8192);
        if (got <= 0) {
            break;
        }
        total += got;
    }
    return std::min(total, most);
}

Result<void> acceptable(const SF_INFO& raw, const std::string& where) {
    if (raw.channels < 1 || raw.channels > most_channels) {
        return fail(
            fmt::format("The sound has {} channels; 1 to {} can be used", raw.channels, most_channels), where,
            other_file_remedy);
    }
    if (raw.samplerate < 1 || raw.samplerate > highest_rate) {
        return fail(
            fmt::format("The sound's rate of {} Hz is outside 1 to {} Hz", raw.samplerate, highest_rate),
            where, other_file_remedy);
    }
    return {};
}

/// MPEG files tell their length in whole blocks, with what fills up the first and the last: where they really
/// end is found by decoding the last ones. What they claim, where their end is not there to seek to.
std::int64_t mpeg_frames(SNDFILE* file, const SF_INFO& raw) {
    constexpr sf_count_t last_blocks = 8 * 1152;
    const sf_count_t near = std::max<sf_count_t>(raw.frames - last_blocks, 0);
    if (sf_seek(file, near, SEEK_SET) != near) {
        return raw.frames;
    }
    const std::int64_t found = count_frames(file, raw.channels, 2 * last_blocks);
    return found > 0 ? near + found : raw.frames;
}

Result<OpenSound> open_sound(const std::filesystem::path& path, SF_INFO& raw) {
    raw = {};
    OpenSound file(sf_open(path.c_str(), SFM_READ, &raw));
    if (!file) {
        return fail(fmt::format("The file cannot be read as sound ({})", sf_strerror(nullptr)), path.string(),
                    other_file_remedy);
    }
    return file;
}

}  // namespace

struct SoundFile::Handle {
    OpenSound file;
    SoundInfo info;
    bool may_hold_nonfinite = false;
    std::vector<float> scratch;  ///< where int16 is made from floating point
    bool is_vorbis = false;
    std::filesystem::path path;
    std::unique_ptr<VorbisReader> vorbis;  ///< reads instead of `file` after an exact seek

    std::int64_t read(std::span<float> out) {
        if (vorbis) {
            return vorbis->read(out);
        }
        const auto wanted = static_cast<sf_count_t>(out.size()) / info.channels;
        return std::max<sf_count_t>(0, sf_readf_float(file.get(), out.data(), wanted));
    }
};

SoundFile::SoundFile(std::unique_ptr<Handle> handle) : handle_(std::move(handle)) {}
SoundFile::SoundFile(SoundFile&&) noexcept = default;
SoundFile& SoundFile::operator=(SoundFile&&) noexcept = default;
SoundFile::~SoundFile() = default;

Result<SoundFile> SoundFile::open(const std::filesystem::path& path) {
    const Result<std::int64_t> size = size_of(path);
    if (!size) {
        return tl::unexpected(size.error());
    }
    SF_INFO raw;
    Result<OpenSound> file = open_sound(path, raw);
    if (!file) {
        return tl::unexpected(file.error());
    }
    if (const auto fit = acceptable(raw, path.string()); !fit) {
        return tl::unexpected(fit.error());
    }
    FormatTraits traits = traits_of(raw.format);
    const std::int64_t plausible =
        *size > INT64_MAX / traits.frames_a_byte ? INT64_MAX : *size * traits.frames_a_byte;
    const bool unknown_length = raw.frames == SF_COUNT_MAX;
    const bool mpeg = (raw.format & SF_FORMAT_TYPEMASK) == SF_FORMAT_MPEG && raw.seekable != 0;
    if (unknown_length || mpeg) {
        raw.frames = unknown_length
                         ? count_frames(file->get(), raw.channels, longest_counted_s * raw.samplerate)
                         : mpeg_frames(file->get(), raw);
        // Bisecting a file of unknown length is not something decoders promise.
        traits.seeks_exactly = traits.seeks_exactly && !unknown_length;
        SF_INFO again;
        file = open_sound(path, again);
        if (!file) {
            return tl::unexpected(file.error());
        }
    }
    if (raw.frames <= 0) {
        return fail("There is no sound in the file", path.string(), "Copy or record it again");
    }
    const int coding = raw.format & SF_FORMAT_SUBMASK;
    const bool vorbis_order = coding == SF_FORMAT_VORBIS || coding == SF_FORMAT_OPUS;
    auto handle = std::make_unique<Handle>();
    handle->info = {std::min<std::int64_t>(raw.frames, plausible),
                    raw.samplerate,
                    raw.channels,
                    traits.bits,
                    traits.name,
                    traits.sixteen_bit,
                    traits.compressed,
                    traits.seeks_exactly && raw.seekable != 0,
                    positions_of(file->get(), raw.channels, vorbis_order)};
    handle->file = std::move(*file);
    handle->path = path;
    handle->is_vorbis = coding == SF_FORMAT_VORBIS;
    handle->may_hold_nonfinite = traits.may_hold_nonfinite;
    if (!traits.sixteen_bit) {
        handle->scratch.resize(scratch_frames * static_cast<std::size_t>(raw.channels));
    }
    return SoundFile(std::move(handle));
}

const SoundInfo& SoundFile::info() const {
    return handle_->info;
}

std::int64_t SoundFile::read(std::span<float> out) {
    const auto channels = static_cast<std::size_t>(handle_->info.channels);
    assert(out.size() % channels == 0);
    const std::int64_t got = handle_->read(out);
    if (handle_->may_hold_nonfinite) {
        drop_nonfinite(out.first(static_cast<std::size_t>(got) * channels));
    }
    return got;
}

std::int64_t SoundFile::read(std::span<std::int16_t> out) {
    const auto channels = static_cast<std::size_t>(handle_->info.channels);
    assert(out.size() % channels == 0);
    if (handle_->info.sixteen_bit) {
        const auto wanted = static_cast<sf_count_t>(out.size() / channels);
        return std::max<sf_count_t>(0, sf_readf_short(handle_->file.get(), out.data(), wanted));
    }
    std::int64_t total = 0;
    while (!out.empty()) {
        const std::size_t frames = std::min(scratch_frames, out.size() / channels);
        const std::int64_t got = handle_->read(std::span(handle_->scratch).first(frames * channels));
        if (got <= 0) {
            break;
        }
        const std::size_t samples = static_cast<std::size_t>(got) * channels;
        to_sixteen_bit(std::span(handle_->scratch).first(samples), out.first(samples));
        out = out.subspan(samples);
        total += got;
        if (static_cast<std::size_t>(got) < frames) {
            break;
        }
    }
    return total;
}

bool SoundFile::seek(std::int64_t frame) {
    if (handle_->is_vorbis && !handle_->vorbis) {
        handle_->vorbis = VorbisReader::open(handle_->path, handle_->info.channels);
        handle_->is_vorbis = handle_->vorbis != nullptr;
    }
    return handle_->vorbis ? handle_->vorbis->seek(frame) : seek_near(frame);
}

bool SoundFile::seek_near(std::int64_t frame) {
    handle_->vorbis.reset();
    return sf_seek(handle_->file.get(), frame, SEEK_SET) == frame;
}

}  // namespace gasp
