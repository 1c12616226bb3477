// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Peaks of an hour of recorded voices against decoding alone to float. The hour is made once, from the
// prompts of Debian's asterisk-core-sounds-en-wav, with sox, flac and oggenc: 1.1 GB in the build folder.
//
//   bench_sound [MINUTES]     60 by default
#include "core/sound/peaks.hpp"

#include <fmt/format.h>
#include <sndfile.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <functional>
#include <string>
#include <vector>

namespace fs = std::filesystem;
using namespace gasp;

namespace {

constexpr int rounds = 7;
const std::atomic<bool> never{false};

struct Voices {
    fs::path wav;
    fs::path flac;
    fs::path ogg;
};

void run(const std::string& command) {
    if (std::system(command.c_str()) != 0) {
        fmt::print(stderr, "failed: {}\n", command);
        std::exit(2);
    }
}

/// Makes what is missing. A file gets its name only when it is whole.
Voices make_voices(int minutes) {
    const fs::path folder = fs::path(GASPWORKS_BINARY_DIR) / "bench-sound";
    fs::create_directories(folder);
    const std::string stem = (folder / fmt::format("voices-{}-min", minutes)).string();
    const Voices voices{stem + ".wav", stem + ".flac", stem + ".ogg"};
    if (!fs::exists(voices.wav)) {
        // All prompts in a row, again and again, from 8 kHz to 48, the right channel 7 ms late.
        run(fmt::format(
            "sox /usr/share/asterisk/sounds/en_US_f_Allison/*.wav -r 48000 '{}.once.wav' remix 1 1 delay "
            "0 0.007 && sox '{}.once.wav' '{}.part.wav' repeat - trim 0 {} && rm '{}.once.wav' && mv "
            "'{}.part.wav' '{}.wav'",
            stem, stem, stem, 60 * minutes, stem, stem, stem));
    }
    if (!fs::exists(voices.flac)) {
        run(fmt::format("flac -s -f '{}.wav' -o '{}.part' && mv '{}.part' '{}.flac'", stem, stem, stem,
                        stem));
    }
    if (!fs::exists(voices.ogg)) {
        run(fmt::format("oggenc -Q '{}.wav' -o '{}.part' && mv '{}.part' '{}.ogg'", stem, stem, stem, stem));
    }
    return voices;
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

void build(const fs::path& path, int threads) {
    auto builder = PeakBuilder::open(path, {threads});
    if (!builder || !builder->build(never, {}) || !builder->pyramid()->complete()) {
        fmt::print(stderr, "{} cannot be built\n", path.string());
        std::exit(2);
    }
}

void first_overview(const fs::path& path) {
    auto builder = PeakBuilder::open(path, {1});
    builder->overview(3840, never);
}

/// Medians of the works' times, taken in turn after one round to warm up.
std::vector<double> medians(const std::vector<std::function<void()>>& works) {
    std::vector<std::vector<double>> times(works.size());
    for (int round = -1; round < rounds; ++round) {
        for (std::size_t i = 0; i < works.size(); ++i) {
            const double time = seconds(works[i]);
            if (round >= 0) {
                times[i].push_back(time);
            }
        }
    }
    std::vector<double> middle;
    for (std::vector<double>& taken : times) {
        std::sort(taken.begin(), taken.end());
        middle.push_back(taken[taken.size() / 2]);
    }
    return middle;
}

bool all_ok = true;

void line(const std::string& name, double value, double bar) {
    const bool ok = value <= bar;
    all_ok = all_ok && ok;
    fmt::print("bench {} = {:.4f} (bar {:.2f}) {}\n", name, value, bar, ok ? "ok" : "short");
    std::fflush(stdout);
}

void compressed(const fs::path& path, const std::string& name, double bar_one, double bar_overview) {
    const auto took = medians({[&] { decode_to_float(path); }, [&] { build(path, 1); },
                               [&] { build(path, 2); }, [&] { first_overview(path); }});
    line(name + "_one_thread_to_decode", took[1] / took[0], bar_one);
    line(name + "_two_threads_to_decode", took[2] / took[0], 0.65);
    line(name + "_overview_to_build", took[3] / took[1], bar_overview);
}

}  // namespace

int main(int argc, char** argv) {
    const int minutes = argc > 1 ? std::atoi(argv[1]) : 60;
    if (minutes < 1) {
        fmt::print(stderr, "usage: bench_sound [MINUTES]\n");
        return 2;
    }
    const Voices voices = make_voices(minutes);
    const std::string name = fmt::format("peaks_{}min", minutes);

    const auto wav = medians({[&] { decode_to_float(voices.wav); }, [&] { build(voices.wav, 1); }});
    line(name + "_wav16_one_thread_to_decode", wav[1] / wav[0], 0.60);
    compressed(voices.flac, name + "_flac", 1.10, 0.20);
    compressed(voices.ogg, name + "_ogg", 1.08, 0.06);

    auto builder = PeakBuilder::open(voices.wav, {2});
    if (!builder || !builder->build(never, {})) {
        return 2;
    }
    const auto pyramid = builder->pyramid();
    const double pcm = 2.0 * static_cast<double>(pyramid->frames()) * pyramid->channels();
    line(name + "_bytes_to_pcm", static_cast<double>(pyramid->bytes()) / pcm, 0.02);
    return all_ok ? 0 : 1;
}
