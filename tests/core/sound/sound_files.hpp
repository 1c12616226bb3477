// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <span>
#include <string>
#include <vector>

namespace gasp::test {

/// A folder of its own for one test, with a space and a letter beyond ASCII in its name; gone at the end.
class Folder {
  public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;

    [[nodiscard]] std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// For what can be cancelled, and is not.
inline const std::atomic<bool> never{false};

/// Interleaved samples with quiet and loud stretches, so that neighbouring bins differ. The same for one
/// seed.
[[nodiscard]] std::vector<std::int16_t> random_samples(std::int64_t frames, int channels, unsigned seed);

/// Writes samples with libsndfile, `format` as in sndfile.h.
void write_sound(const std::filesystem::path& path, int format, int rate, int channels,
                 std::span<const std::int16_t> samples);
void write_sound(const std::filesystem::path& path, int format, int rate, int channels,
                 std::span<const float> samples);

[[nodiscard]] std::string read_bytes(const std::filesystem::path& path);
void write_bytes(const std::filesystem::path& path, const std::string& bytes);

/// What a shell command prints to either stream. The test fails when it fails.
std::string shell(const std::string& command);
/// In quotes for the shell.
[[nodiscard]] std::string quoted(const std::filesystem::path& path);

/// Recorded prompts of Debian's asterisk-core-sounds-en-wav (8 kHz, mono, 16 bits).
[[nodiscard]] std::vector<std::filesystem::path> recorded_prompts();
/// The speaker test of Debian's alsa-utils (48 kHz, mono, 16 bits).
[[nodiscard]] std::vector<std::filesystem::path> speaker_test_prompts();

}  // namespace gasp::test
