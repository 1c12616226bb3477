// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/vorbis_reader.hpp"

#define OV_EXCLUDE_STATIC_CALLBACKS
#include <vorbis/vorbisfile.h>

#include <algorithm>
#include <utility>

namespace gasp {

std::unique_ptr<VorbisReader> VorbisReader::open(const std::filesystem::path& path, int channels) {
    auto file = std::make_unique<OggVorbis_File>();
    if (ov_fopen(path.c_str(), file.get()) != 0) {
        return nullptr;
    }
    const vorbis_info* info = ov_info(file.get(), -1);
    const bool plain = ov_seekable(file.get()) != 0 && ov_streams(file.get()) == 1 && info != nullptr &&
                       info->channels == channels;
    if (!plain) {
        ov_clear(file.get());
        return nullptr;
    }
    return std::unique_ptr<VorbisReader>(new VorbisReader(std::move(file), channels));
}

VorbisReader::VorbisReader(std::unique_ptr<OggVorbis_File> file, int channels)
    : file_(std::move(file)), channels_(channels) {}

VorbisReader::~VorbisReader() {
    ov_clear(file_.get());
}

std::int64_t VorbisReader::read(std::span<float> out) {
    const auto channels = static_cast<std::size_t>(channels_);
    constexpr std::size_t most_frames = 4096;
    std::int64_t total = 0;
    while (!out.empty()) {
        float** planes = nullptr;
        const auto wanted = static_cast<int>(std::min(most_frames, out.size() / channels));
        const long got = ov_read_float(file_.get(), &planes, wanted, nullptr);
        if (got == OV_HOLE) {
            continue;
        }
        if (got <= 0) {
            break;
        }
        const auto frames = static_cast<std::size_t>(got);
        for (std::size_t channel = 0; channel < channels; ++channel) {
            for (std::size_t frame = 0; frame < frames; ++frame) {
                out[frame * channels + channel] = planes[channel][frame];
            }
        }
        out = out.subspan(frames * channels);
        total += got;
    }
    return total;
}

bool VorbisReader::seek(std::int64_t frame) {
    return ov_pcm_seek(file_.get(), frame) == 0;
}

}  // namespace gasp
