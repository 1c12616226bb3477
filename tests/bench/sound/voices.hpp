// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <filesystem>
#include <functional>
#include <string>

namespace gasp::bench {

/// Recorded voices of so many minutes at 48 kHz in stereo, the prompts of Debian's
/// asterisk-core-sounds-en-wav in a row, again and again, the right channel 7 ms late. Made with sox, flac
/// and oggenc, and kept in the build folder. What fails ends the program.
[[nodiscard]] std::filesystem::path voices_wav(int minutes);
[[nodiscard]] std::filesystem::path voices_flac(int minutes);
[[nodiscard]] std::filesystem::path voices_ogg(int minutes);
/// The same where the WAV would be too large to be kept: it is made, encoded and removed.
[[nodiscard]] std::filesystem::path voices_flac_alone(int minutes);

/// Wall time.
[[nodiscard]] double seconds(const std::function<void()>& work);

/// The library alone, to float; a damaged file ends the program.
void decode_to_float(const std::filesystem::path& path);

/// Prints the line of a figure; whether it is within its bar.
bool line(const std::string& name, double value, double bar);

}  // namespace gasp::bench
