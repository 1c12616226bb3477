// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_player.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// How long the compressor runs within [from, to].
class RunningTime {
  public:
    explicit RunningTime(std::span<const CompressorRun> runs) : runs_(runs), before_(runs.size() + 1) {
        for (std::size_t i = 0; i < runs.size(); ++i) {
            before_[i + 1] = before_[i] + runs[i].end_s - runs[i].begin_s;
        }
    }
    [[nodiscard]] double until(double time_s) const {
        const auto next = std::ranges::upper_bound(runs_, time_s, {}, &CompressorRun::begin_s);
        const auto ended = static_cast<std::size_t>(next - runs_.begin());
        if (ended == 0) {
            return 0.0;
        }
        const CompressorRun& last = runs_[ended - 1];
        return before_[ended - 1] + std::clamp(time_s - last.begin_s, 0.0, last.end_s - last.begin_s);
    }

  private:
    std::span<const CompressorRun> runs_;
    std::vector<double> before_;
};

}  // namespace

double worst_share(std::span<const CompressorRun> runs, double window_s) {
    // The share in a moving window is straight but where an edge of it meets an edge of a run: the largest is
    // found with one of its edges on one of theirs.
    const RunningTime running(runs);
    double most = 0.0;
    for (const CompressorRun& run : runs) {
        for (const double from : {run.begin_s, run.end_s - window_s}) {
            most = std::max(most, running.until(from + window_s) - running.until(from));
        }
    }
    return window_s > 0.0 ? std::min(most / window_s, 1.0) : 0.0;
}

int most_starts_within(std::span<const CompressorRun> runs, double window_s) {
    std::size_t first = 0;
    std::size_t most = 0;
    for (std::size_t i = 0; i < runs.size(); ++i) {
        while (runs[i].begin_s - runs[first].begin_s >= window_s) {
            ++first;
        }
        most = std::max(most, i - first + 1);
    }
    return static_cast<int>(most);
}

double percentile(std::span<const double> sorted, double p) {
    const double place = std::ceil(p * static_cast<double>(sorted.size()));
    return sorted[static_cast<std::size_t>(std::max(place, 1.0)) - 1];
}

Spread spread_of(std::vector<double> values) {
    if (values.empty()) {
        return {};
    }
    std::ranges::sort(values);
    return {percentile(values, 0.05), percentile(values, 0.50), percentile(values, 0.95)};
}

void StrikeCounts::add(std::size_t strike, double strike_s) {
    if (std::isnan(strike_s)) {
        ++missed_[strike];
        return;
    }
    ++counts_[strike][static_cast<std::int32_t>(std::lround(strike_s / unit_s))];
}

void StrikeCounts::add(const StrikeCounts& other) {
    for (std::size_t i = 0; i < counts_.size(); ++i) {
        missed_[i] += other.missed_[i];
        for (const auto& [time, count] : other.counts_[i]) {
            counts_[i][time] += count;
        }
    }
}

std::vector<std::pair<double, std::size_t>> StrikeCounts::all() const {
    std::vector<std::pair<double, std::size_t>> all;
    for (const auto& counts : counts_) {
        for (const auto& [time, count] : counts) {
            all.emplace_back(time * unit_s, count);
        }
    }
    std::ranges::sort(all);
    return all;
}

void StrikeCounts::put(std::vector<NightStrike>& strikes) const {
    for (std::size_t i = 0; i < strikes.size(); ++i) {
        std::vector<std::pair<std::int32_t, std::size_t>> sorted(counts_[i].begin(), counts_[i].end());
        std::ranges::sort(sorted);
        std::size_t all = 0;
        for (const auto& [time, count] : sorted) {
            all += count;
        }
        strikes[i].missed = missed_[i];
        strikes[i].strokes = all + missed_[i];
        if (all == 0) {
            continue;
        }
        const auto at = [&](double p) {
            auto left = static_cast<std::size_t>(std::max(std::ceil(p * static_cast<double>(all)), 1.0));
            for (const auto& [time, count] : sorted) {
                if (left <= count) {
                    return time * unit_s;
                }
                left -= count;
            }
            return sorted.back().first * unit_s;
        };
        strikes[i].strike_s = Spread{at(0.05), at(0.50), at(0.95)};
    }
}

}  // namespace gasp
