// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/sound/voices.hpp"

#include <fmt/format.h>
#include <sndfile.h>

#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <vector>

namespace fs = std::filesystem;

namespace gasp::bench {

namespace {

void run(const std::string& command) {
    if (std::system(command.c_str()) != 0) {
        fmt::print(stderr, "failed: {}\n", command);
        std::exit(2);
    }
}

std::string stem_of(int minutes) {
    const fs::path folder = fs::path(GASPWORKS_BINARY_DIR) / "bench-sound";
    fs::create_directories(folder);
    return (folder / fmt::format("voices-{}-min", minutes)).string();
}

/// Encodes the WAV where that is missing. A file gets its name only when it is whole.
fs::path encoded(int minutes, const std::string& ending, const std::string& encoder) {
    const std::string stem = stem_of(minutes);
    if (!fs::exists(stem + ending)) {
        const std::string wav = voices_wav(minutes).string();
        run(fmt::format("{} '{}' -o '{}.part' && mv '{}.part' '{}{}'", encoder, wav, stem, stem, stem,
                        ending));
    }
    return stem + ending;
}

}  // namespace

fs::path voices_wav(int minutes) {
    const std::string stem = stem_of(minutes);
    if (!fs::exists(stem + ".wav")) {
        // From 8 kHz to 48.
        run(fmt::format(
            "sox /usr/share/asterisk/sounds/en_US_f_Allison/*.wav -r 48000 '{}.once.wav' remix 1 1 delay "
            "0 0.007 && sox '{}.once.wav' '{}.part.wav' repeat - trim 0 {} && rm '{}.once.wav' && mv "
            "'{}.part.wav' '{}.wav'",
            stem, stem, stem, 60 * minutes, stem, stem, stem));
    }
    return stem + ".wav";
}

fs::path voices_flac(int minutes) {
    return encoded(minutes, ".flac", "flac -s -f");
}

fs::path voices_ogg(int minutes) {
    return encoded(minutes, ".ogg", "oggenc -Q");
}

fs::path voices_flac_alone(int minutes) {
    const std::string stem = stem_of(minutes);
    if (!fs::exists(stem + ".flac")) {
        const bool kept = fs::exists(stem + ".wav");
        static_cast<void>(voices_flac(minutes));
        if (!kept) {
            fs::remove(stem + ".wav");
        }
    }
    return stem + ".flac";
}

double seconds(const std::function<void()>& work) {
    const auto start = std::chrono::steady_clock::now();
    work();
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

void decode_to_float(const fs::path& path) {
    SF_INFO info{};
    SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
    std::vector<float> block(8192 * static_cast<std::size_t>(info.channels));
    sf_count_t total = 0;
    while (const sf_count_t got = sf_readf_float(file, block.data(), 8192)) {
        total += got;
    }
    sf_close(file);
    if (total != info.frames) {
        fmt::print(stderr, "{} is damaged\n", path.string());
        std::exit(2);
    }
}

bool line(const std::string& name, double value, double bar) {
    const bool ok = value <= bar;
    fmt::print("bench {} = {:.4f} (bar {:.2f}) {}\n", name, value, bar, ok ? "ok" : "short");
    std::fflush(stdout);
    return ok;
}

}  // namespace gasp::bench
