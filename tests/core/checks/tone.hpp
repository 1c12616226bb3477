// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/sound_shelf.hpp"
#include "core/show/show.hpp"
#include "tests/core/checks/rig.hpp"

#include <cmath>
#include <cstdint>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <numbers>
#include <string>

namespace gasp::checks_test {

/// A sine of 1 kHz in both channels at 44.1 kHz, 16-bit PCM: RIFF, "fmt " and "data" as in Microsoft's and
/// IBM's "Multimedia Programming Interface and Data Specifications 1.0", 1991. Its loudness in LUFS is its
/// peak in dBFS (ITU-R BS.1770; EBU Tech 3341, case 1).
inline void write_tone(const std::filesystem::path& path, double seconds, double peak_dbfs) {
    constexpr std::uint32_t rate = 44100;
    const auto frames = static_cast<std::uint32_t>(seconds * rate);
    const auto word = [](std::uint32_t value) {
        std::string text(4, '\0');
        std::memcpy(text.data(), &value, 4);
        return text;
    };
    std::string samples;
    for (std::uint32_t i = 0; i < frames; ++i) {
        const double sine = std::sin(2.0 * std::numbers::pi * 1000.0 * i / rate);
        const auto sample =
            static_cast<std::int16_t>(std::lround(32767.0 * std::pow(10.0, peak_dbfs / 20.0) * sine));
        std::string bytes(4, '\0');
        std::memcpy(bytes.data(), &sample, 2);
        std::memcpy(bytes.data() + 2, &sample, 2);
        samples += bytes;
    }
    std::ofstream(path, std::ios::binary)
        << "RIFF" << word(36 + 4 * frames) << "WAVEfmt " << word(16) << word(0x0002'0001) << word(rate)
        << word(4 * rate) << word(0x0010'0004) << "data" << word(4 * frames) << samples;
}

/// The clean show with "tone.wav" from a moment on, for 8 s.
inline Show show_with_tone(Micros start) {
    Show show = clean_show();
    SoundClip clip;
    clip.id = {500};
    clip.file = "tone.wav";
    clip.start = start;
    clip.length = 8s;
    show.sequences[0].clips = {clip};
    return show;
}

inline std::vector<Finding> sound_findings(const Show& show, SoundShelf& shelf, std::string_view name) {
    auto found = check(show, show.sequences[0], {.sounds = &shelf});
    std::erase_if(found, [name](const Finding& finding) { return finding.check != name; });
    return found;
}

}  // namespace gasp::checks_test
