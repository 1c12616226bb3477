// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Checks among 100 000 cues on 64 channels, unsorted as a file gives them: all of them against the plain way,
// and after one cue moved against all of them. Both ways start from the cues of a Show and end with a list of
// faults, which must be the same: each finds its channel's place and tick, rounds both edges, cuts them to
// the sequence, puts the cues of each channel in order and finds overlaps, dwells and rests too short, and
// channels on together that exclude each other. Both use the product's rule for a dwell too short and for two
// channels at once; the plain way sorts all cues by comparing and knows neither flashes nor NC contacts, nor
// keeps anything for later moves.
#include "core/checks/check.hpp"
#include "core/checks/cue_index.hpp"
#include "tests/bench/checks/sort_and_sweep.hpp"

#include <time.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <random>
#include <vector>

using namespace gasp;

namespace {

constexpr std::size_t cue_count = 100'000;
constexpr std::uint32_t channel_count = 64;
constexpr int rounds = 11;
constexpr int moves = 2'000;

/// Channels in exclusive pairs, all with limits; an hour in which about one cue in fifty is at fault.
Show big_show() {
    Show show = empty_show();
    show.sequences[0].length = std::chrono::hours{1};
    for (std::uint32_t i = 0; i < channel_count; ++i) {
        Channel channel;
        channel.id = {100 + i};
        channel.name = "lamp " + std::to_string(i);
        channel.shortest_on_ms = 60.0;
        channel.shortest_off_ms = 20.0;
        if (i % 8 == 1) {
            channel.excludes = {{100 + i - 1}};
        }
        show.rig.channels.push_back(channel);
    }
    std::mt19937_64 random(7);
    // Slots of 2.3 s on each channel, shuffled; cues of an excluding channel stand in the second half of a
    // slot.
    std::vector<std::uint32_t> slots(cue_count);
    for (std::uint32_t i = 0; i < cue_count; ++i) {
        slots[i] = i;
    }
    std::shuffle(slots.begin(), slots.end(), random);
    for (std::uint32_t i = 0; i < cue_count; ++i) {
        Cue cue;
        cue.id = {1000 + i};
        const std::uint32_t place = slots[i] % channel_count;
        cue.channel = {100 + place};
        const auto late = static_cast<std::int64_t>(place % 8 == 1 ? 1'150'000 : 0);
        cue.at = Micros{static_cast<std::int64_t>(slots[i] / channel_count) * 2'300'000 + late +
                        static_cast<std::int64_t>(random() % 560'000)};
        cue.length = Micros{static_cast<std::int64_t>(50'000 + random() % 500'000)};
        if (random() % 100 == 0) {
            cue.length *= 5;  // runs into the next
        }
        show.sequences[0].cues.push_back(cue);
    }
    return show;
}

/// Processor time of this thread: all of the work is done on it, and a busy machine does not count.
double now_us() {
    timespec time{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &time);
    return static_cast<double>(time.tv_sec) * 1e6 + static_cast<double>(time.tv_nsec) / 1e3;
}

template <class Work>
double timed_us(Work work) {
    const double start = now_us();
    work();
    return now_us() - start;
}

double median(std::vector<double> values) {
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                     values.end());
    return values[values.size() / 2];
}

/// Moves cues there and back, each by up to a second, and gives the time of one move.
double one_move_us(CueIndex& index, const std::vector<Cue>& cues, std::mt19937_64& random,
                   std::size_t& found) {
    std::vector<std::pair<Cue, Cue>> planned;
    for (int i = 0; i < moves / 2; ++i) {
        Cue before = cues[random() % cues.size()];
        Cue after = before;
        after.at = std::max(Micros{0},
                            before.at + Micros{static_cast<std::int64_t>(random() % 2'000'000) - 1'000'000});
        planned.emplace_back(before, after);
    }
    const double all = timed_us([&] {
        for (const auto& [before, after] : planned) {
            found += index.update(StartedCue{before, before.at}, StartedCue{after, after.at}).come.size();
            found += index.update(StartedCue{after, after.at}, StartedCue{before, before.at}).come.size();
        }
    });
    return all / moves;
}

bool report(const char* name, double value, double bar) {
    const bool ok = value <= bar;
    std::printf("bench %s = %.4f (bar %.4f) %s\n", name, value, bar, ok ? "ok" : "short");
    return ok;
}

}  // namespace

int main() {
    const Show show = big_show();
    const Sequence& sequence = show.sequences[0];
    std::mt19937_64 random(11);
    CueIndex index(show, sequence);
    std::vector<double> plain;
    std::vector<double> full;
    std::vector<double> move;
    std::vector<double> whole;
    std::size_t found = 0;
    std::vector<CueFault> by_sweep;
    std::vector<CueFault> by_index;
    for (int round = 0; round <= rounds; ++round) {
        plain.push_back(timed_us([&] { by_sweep = bench::sort_and_sweep(show, sequence); }));
        full.push_back(timed_us([&] { by_index = CueIndex(show, sequence).faults(); }));
        move.push_back(one_move_us(index, sequence.cues, random, found));
        whole.push_back(timed_us([&] { found += check(show, sequence).size(); }));
        if (round == 0) {  // to warm up
            plain.clear(), full.clear(), move.clear(), whole.clear();
        }
    }
    std::sort(by_sweep.begin(), by_sweep.end());
    std::sort(by_index.begin(), by_index.end());
    if (by_sweep.empty() || by_sweep != by_index) {
        std::printf("the two ways differ: %zu faults by sweep, %zu by index\n", by_sweep.size(),
                    by_index.size());
        return 1;
    }
    std::printf(
        "%zu faults; sweep %.0f us, index %.0f us, one move %.2f us, all checks with their words %.0f us\n",
        by_index.size(), median(plain), median(full), median(move), median(whole));
    const bool fast = report("checks_full_to_sort_and_sweep", median(full) / median(plain), 0.20);
    const bool light = report("checks_one_move_to_full", median(move) / median(full), 1.0 / 300.0);
    return fast && light && found > 0 ? 0 : 1;
}
