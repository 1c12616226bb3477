// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Peaks of an hour of recorded voices against decoding alone to float. The hour is made once: 1.1 GB in the
// build folder.
//
//   bench_sound [MINUTES]     60 by default
#include "core/sound/peaks.hpp"
#include "tests/bench/sound/voices.hpp"

#include <fmt/format.h>

#include <algorithm>
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
            const double time = bench::seconds(works[i]);
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
    all_ok = bench::line(name, value, bar) && all_ok;
}

void compressed(const fs::path& path, const std::string& name, double bar_one, double bar_overview) {
    const auto took = medians({[&] { bench::decode_to_float(path); }, [&] { build(path, 1); },
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
    const fs::path wav_file = bench::voices_wav(minutes);
    const std::string name = fmt::format("peaks_{}min", minutes);

    const auto wav = medians({[&] { bench::decode_to_float(wav_file); }, [&] { build(wav_file, 1); }});
    line(name + "_wav16_one_thread_to_decode", wav[1] / wav[0], 0.60);
    compressed(bench::voices_flac(minutes), name + "_flac", 1.10, 0.20);
    compressed(bench::voices_ogg(minutes), name + "_ogg", 1.08, 0.06);

    auto builder = PeakBuilder::open(wav_file, {2});
    if (!builder || !builder->build(never, {})) {
        return 2;
    }
    const auto pyramid = builder->pyramid();
    const double pcm = 2.0 * static_cast<double>(pyramid->frames()) * pyramid->channels();
    line(name + "_bytes_to_pcm", static_cast<double>(pyramid->bytes()) / pcm, 0.02);
    return all_ok ? 0 : 1;
}
