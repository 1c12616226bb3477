// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// Where a channel is meant to be heard.
enum class SpeakerPosition : std::uint8_t {
    left,
    right,
    centre,
    low_frequency,
    left_surround,
    right_surround,
    centre_surround,
    other
};

struct SoundInfo {
    std::int64_t frames =
        0;         ///< what the file says, held to what its size makes plausible; decoding may find fewer
    int rate = 0;  ///< frames a second
    int channels = 0;
    int bits = 0;              ///< of an integer sample; 0 for floating point and lossy formats
    std::string format;        ///< "WAV, 16-bit PCM"
    bool sixteen_bit = false;  ///< its samples are 16-bit integers or fewer bits, so int16 loses nothing
    bool compressed = false;   ///< slow to decode against its size: FLAC, Ogg, MPEG, ALAC
    bool seeks_exactly =
        false;  ///< decoding after a seek gives the very samples decoding straight through gives
    /// One for each channel: as the file tells, or by their count in the order of its format.
    std::vector<SpeakerPosition> speakers;
};

/// An open sound file of any format libsndfile reads. Files are untrusted: no claim of their headers is
/// believed beyond what decodes. Not thread-safe; open one for each thread.
class SoundFile {
  public:
    /// A file that does not say its length is decoded once to count it, up to 24 hours of sound.
    /// Error: missing, not a regular file, empty, not a sound file, no sound in it, no channels or over 64,
    /// rate outside 1..768000.
    [[nodiscard]] static Result<SoundFile> open(const std::filesystem::path& path);
    SoundFile(SoundFile&&) noexcept;
    SoundFile& operator=(SoundFile&&) noexcept;
    ~SoundFile();

    [[nodiscard]] const SoundInfo& info() const;

    /// Decodes the next frames, interleaved; the number read, fewer than asked only at the end or where the
    /// data is cut or damaged. Requires: out.size() is a multiple of the channels. Full scale is 1; samples
    /// that are not finite become 0.
    std::int64_t read(std::span<float> out);
    /// The same as 16-bit integers: rounded to the nearest and clamped where the source has more bits.
    std::int64_t read(std::span<std::int16_t> out);
    /// Moves to a frame; false where the format or the file cannot.
    bool seek(std::int64_t frame);
    /// The same, faster where it can be, and some hundred frames beside it at worst.
    bool seek_near(std::int64_t frame);

  private:
    struct Handle;
    explicit SoundFile(std::unique_ptr<Handle> handle);
    std::unique_ptr<Handle> handle_;
};

}  // namespace gasp
