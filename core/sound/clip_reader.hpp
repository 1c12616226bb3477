// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/clip_gain.hpp"
#include "core/sound/downmix.hpp"
#include "core/sound/sound_file.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <vector>

struct SRC_STATE_tag;

namespace gasp {

/// A sound file as stereo at its own rate, from any frame on; silence past its end.
class StereoSource {
  public:
    StereoSource(SoundFile file, std::filesystem::path path);

    [[nodiscard]] int rate() const { return file_.info().rate; }
    void read(std::span<float> stereo);
    void seek(std::int64_t frame);

  private:
    SoundFile file_;
    std::filesystem::path path_;
    std::vector<StereoGain> gains_;
    std::vector<float> block_;
    std::int64_t position_ = 0;
    bool ended_ = false;
};

/// One clip of a sequence as stereo at the rate of the mix.
class ClipReader {
  public:
    [[nodiscard]] static Result<ClipReader> open(const SoundClip& clip, const std::filesystem::path& path,
                                                 int rate);

    /// Makes ready for reading from a frame of the sequence on.
    void seek(std::int64_t frame);
    /// Adds the clip's part to a block of the mix that begins at a frame of the sequence. Requires: `frame`
    /// is where the last block ended, or the frame of the last seek.
    void add_to(std::span<float> stereo, std::int64_t frame);

  private:
    struct DeleteConverter {
        void operator()(SRC_STATE_tag* state) const;
    };

    ClipReader(const SoundClip& clip, StereoSource source, int rate);
    /// Adds what was pulled for the frames from one of the sequence's on, each by its gain.
    void add(std::span<const float> part, std::span<float> sum, std::int64_t first) const;
    void pull(std::span<float> stereo);
    void convert(std::span<float> stereo);

    StereoSource source_;
    int rate_;
    ClipGain gain_;
    std::int64_t from_;  ///< where it begins in the file, in the file's frames
    std::unique_ptr<SRC_STATE_tag, DeleteConverter> converter_;  ///< null where the rates agree
    std::vector<float> input_;                                   ///< of the converter
    std::span<const float> unused_;                              ///< the part of it not taken yet
    std::vector<float> block_;
};

}  // namespace gasp
