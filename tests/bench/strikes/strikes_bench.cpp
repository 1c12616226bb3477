// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/sequence_run.hpp"
#include "tests/bench/strikes/show_of_500.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstdio>
#include <vector>

// A sequence of 500 cues of valves, each placed by its strike, after one of them was dragged: against working
// it all out anew. Both timed in turn.

namespace {

using namespace gasp;
using namespace std::chrono_literals;
using bench::cues;

constexpr int rounds = 9;
constexpr double bar_of_time = 0.25;
constexpr double bar_of_strokes = 0.02;

double seconds(std::chrono::steady_clock::time_point since) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - since).count();
}

double median(std::vector<double> values) {
    std::ranges::sort(values);
    return values[values.size() / 2];
}

bool report(const char* name, double value, double bar) {
    const bool good = value <= bar;
    fmt::print("bench {} = {:.4f} (bar {}) {}\n", name, value, bar, good ? "ok" : "short");
    return good;
}

}  // namespace

int main() {
    Show show = bench::show_of_500();
    Sequence& sequence = show.sequences[0];
    AirMemo kept;
    static_cast<void>(work_out(show, sequence, kept));
    std::vector<double> ratios;
    std::vector<double> drags;
    std::size_t most_again = 0;
    std::size_t of_all = 0;
    for (int round = 0; round <= rounds; ++round) {
        const auto begin_anew = std::chrono::steady_clock::now();
        AirMemo empty;
        const SequenceRun anew = work_out(show, sequence, empty);
        const double all = seconds(begin_anew);
        of_all = anew.air.run ? anew.air.run->strokes.size() : 0;
        // A drag to where it has not been yet, longer with every step: nothing of it is known before.
        sequence.cues[250].at += 13ms;
        sequence.cues[250].length += 7ms;
        const std::size_t before = kept.strokes_simulated();
        const auto begin_drag = std::chrono::steady_clock::now();
        const SequenceRun dragged = work_out(show, sequence, kept);
        const double drag = seconds(begin_drag);
        if (!dragged.air.run || dragged.strikes.size() != cues ||
            std::ranges::any_of(dragged.strikes, [](const PlacedStrike& strike) {
                return strike.fault != StrikeFault::none;
            })) {
            fmt::print("a strike is not met: this measures nothing\n");
            return 1;
        }
        if (round > 0) {
            ratios.push_back(drag / all);
            drags.push_back(drag);
            most_again = std::max(most_again, kept.strokes_simulated() - before);
        }
    }
    fmt::print("{} strokes, {} simulated again after a drag, {:.1f} ms\n", of_all, most_again,
               median(drags) * 1e3);
    const bool time = report("strikes_drag_time_against_anew", median(ratios), bar_of_time);
    const bool count = report("strikes_simulated_again_share",
                              static_cast<double>(most_again) / static_cast<double>(of_all), bar_of_strokes);
    return time && count ? 0 : 1;
}
