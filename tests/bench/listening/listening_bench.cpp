// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Onsets and loudness of an hour of recorded voices against the libraries alone: aubio and libebur128 fed
// directly from sf_readf_float, with the same settings, the file decoded once for both. Processor time of one
// thread, the two in turn. And how soon each stops once it is cancelled in the middle, against what all of it
// takes.
//
//   bench_listening [MINUTES]     60 by default
#include "core/sound/listening.hpp"
#include "core/sound/report.hpp"
#include "tests/bench/sound/voices.hpp"

#include <aubio/aubio.h>
#include <ebur128.h>
#include <fmt/format.h>
#include <sndfile.h>
#include <time.h>

#include <algorithm>
#include <atomic>
#include <cstdlib>
#include <thread>
#include <vector>

using namespace gasp;

namespace {

constexpr int rounds = 3;
constexpr std::size_t block_frames = 8192;
const std::atomic<bool> never{false};

double thread_s() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_nsec) / 1e9;
}

struct Found {
    std::size_t onsets = 0;
    double lufs = 0.0;
};

[[noreturn]] void give_up(const std::string& why) {
    fmt::print(stderr, "{}\n", why);
    std::exit(2);
}

/// aubio with the settings that the product has by default.
class BareOnsets {
  public:
    explicit BareOnsets(int rate)
        : onset_(new_aubio_onset("hfc", 4 * hop, hop, static_cast<uint_t>(rate))),
          input_(new_fvec(hop)),
          found_(new_fvec(1)) {
        const OnsetOptions options;
        aubio_onset_set_threshold(onset_, static_cast<smpl_t>(options.threshold));
        aubio_onset_set_silence(onset_, static_cast<smpl_t>(options.silence_dbfs));
        aubio_onset_set_minioi_ms(onset_, static_cast<smpl_t>(options.least_gap_ms));
    }
    ~BareOnsets() {
        del_aubio_onset(onset_);
        del_fvec(input_);
        del_fvec(found_);
    }
    BareOnsets(const BareOnsets&) = delete;
    BareOnsets& operator=(const BareOnsets&) = delete;

    void add(const float* stereo, std::size_t frames) {
        for (std::size_t i = 0; i < frames; ++i) {
            input_->data[filled_] = (stereo[2 * i] + stereo[2 * i + 1]) / 2.0F;
            if (++filled_ == hop) {
                filled_ = 0;
                aubio_onset_do(onset_, input_, found_);
                count_ += found_->data[0] > 0.0F ? 1 : 0;
            }
        }
    }
    [[nodiscard]] std::size_t count() const { return count_; }

  private:
    static constexpr uint_t hop = 256;  // what the product takes at 48 kHz
    aubio_onset_t* onset_;
    fvec_t* input_;
    fvec_t* found_;
    uint_t filled_ = 0;
    std::size_t count_ = 0;
};

Found libraries_alone(const std::filesystem::path& path) {
    SF_INFO info{};
    SNDFILE* file = sf_open(path.c_str(), SFM_READ, &info);
    if (file == nullptr || info.channels != 2 || info.samplerate != 48'000) {
        give_up("the voices are not stereo at 48 kHz");
    }
    BareOnsets onsets(info.samplerate);
    ebur128_state* loudness =
        ebur128_init(2, static_cast<unsigned long>(info.samplerate), EBUR128_MODE_I | EBUR128_MODE_TRUE_PEAK);
    std::vector<float> block(2 * block_frames);
    while (const sf_count_t got = sf_readf_float(file, block.data(), block_frames)) {
        onsets.add(block.data(), static_cast<std::size_t>(got));
        ebur128_add_frames_float(loudness, block.data(), static_cast<std::size_t>(got));
    }
    Found found{onsets.count(), 0.0};
    ebur128_loudness_global(loudness, &found.lufs);
    ebur128_destroy(&loudness);
    sf_close(file);
    return found;
}

Found product(const std::filesystem::path& path) {
    const auto heard = listen(path, {}, never, {});
    const auto report = sound_report(path, never, {});
    if (!heard || !report || !report->loudness_lufs || !report->loudest) {
        give_up("the voices cannot be listened to");
    }
    return {heard->onsets.size(), *report->loudness_lufs};
}

double timed(Found (*work)(const std::filesystem::path&), const std::filesystem::path& path, Found& found) {
    const double begin = thread_s();
    found = work(path);
    return thread_s() - begin;
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

/// The longest that either works on after it is cancelled while it runs on a thread of its own.
double stop_s(const std::filesystem::path& path) {
    double longest = 0.0;
    for (const bool onsets : {true, false}) {
        std::atomic<bool> cancel{false};
        std::atomic<bool> under_way{false};
        const auto progress = [&](double share) { under_way = share > 0.05; };
        std::jthread worker([&] {
            onsets ? static_cast<void>(listen(path, {}, cancel, progress))
                   : static_cast<void>(sound_report(path, cancel, progress));
        });
        while (!under_way) {
            std::this_thread::yield();
        }
        longest = std::max(longest, bench::seconds([&] {
                               cancel = true;
                               worker.join();
                           }));
    }
    return longest;
}

}  // namespace

int main(int argc, char** argv) {
    const int minutes = argc > 1 ? std::atoi(argv[1]) : 60;
    if (minutes < 1) {
        fmt::print(stderr, "usage: bench_listening [MINUTES]\n");
        return 2;
    }
    const std::filesystem::path voices = bench::voices_flac(minutes);
    std::vector<double> alone_s;
    std::vector<double> product_s;
    for (int round = 0; round < rounds; ++round) {
        Found alone;
        Found ours;
        alone_s.push_back(timed(libraries_alone, voices, alone));
        product_s.push_back(timed(product, voices, ours));
        // The product looks a few hops past the end, and drops onsets that do not rise.
        if (ours.onsets + 2 < alone.onsets || ours.onsets > alone.onsets + 2 || ours.lufs != alone.lufs) {
            give_up(fmt::format("{} onsets and {} LUFS, but the libraries find {} and {}", ours.onsets,
                                ours.lufs, alone.onsets, alone.lufs));
        }
    }
    bool all_ok = bench::line(fmt::format("onsets_and_loudness_{}min_to_libraries", minutes),
                              median(product_s) / median(alone_s), 1.3);
    all_ok =
        bench::line("onsets_and_loudness_cancel_to_all", stop_s(voices) / median(product_s), 0.02) && all_ok;
    return all_ok ? 0 : 1;
}
