// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <span>

struct OggVorbis_File;

namespace gasp {

/// An Ogg Vorbis file read from exact places. The decoder is the one libsndfile uses and gives the same
/// samples, but libsndfile 1.2.0 can miss the place it seeks to by some hundred frames (its issue 885).
class VorbisReader {
  public:
    /// Null when it is not one plain stream of so many channels.
    [[nodiscard]] static std::unique_ptr<VorbisReader> open(const std::filesystem::path& path, int channels);
    ~VorbisReader();
    VorbisReader(const VorbisReader&) = delete;
    VorbisReader& operator=(const VorbisReader&) = delete;

    /// Interleaved frames; the number read. Lost packets are passed over.
    std::int64_t read(std::span<float> out);
    bool seek(std::int64_t frame);

  private:
    VorbisReader(std::unique_ptr<OggVorbis_File> file, int channels);
    std::unique_ptr<OggVorbis_File> file_;
    int channels_;
};

}  // namespace gasp
