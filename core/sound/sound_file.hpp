// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>
#include <string>

namespace gasp {

struct SoundInfo {
    std::int64_t frames = 0;
    int rate = 0;  ///< frames a second
    int channels = 0;
    std::string format;        ///< "WAV, 16-bit PCM"
    bool sixteen_bit = false;  ///< its samples are exactly 16-bit integers
};

/// An open sound file of any format libsndfile reads. Files are untrusted: no claim of their headers is believed
/// beyond what decodes. Not thread-safe; open one for each thread.
class SoundFile {
  public:
    /// Error: missing, empty, not a sound file, no channels or over 64, rate outside 1..768000.
    [[nodiscard]] static Result<SoundFile> open(const std::filesystem::path& path);
    SoundFile(SoundFile&&) noexcept;
    SoundFile& operator=(SoundFile&&) noexcept;
    ~SoundFile();

    [[nodiscard]] const SoundInfo& info() const;

    /// Decodes the next frames, interleaved; the number read, fewer than asked only at the end or where the data
    /// is cut or damaged. Requires: out.size() is a multiple of the channels. Samples that are not finite become 0.
    std::int64_t read(std::span<float> out);
    /// The same as 16-bit integers; floating point sources are scaled to full scale and clamped.
    std::int64_t read(std::span<std::int16_t> out);
    /// Moves to a frame; false where the format or the file cannot.
    bool seek(std::int64_t frame);

  private:
    struct Handle;
    explicit SoundFile(std::unique_ptr<Handle> handle);
    std::unique_ptr<Handle> handle_;
};

/// "fnv1a64:<16 hex digits>" of a file's bytes, by which a moved sound file is known again.
[[nodiscard]] Result<std::string> content_of(const std::filesystem::path& path);

}  // namespace gasp
