// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/flash_count.hpp"

#include <algorithm>
#include <array>
#include <chrono>
#include <utility>

namespace gasp {
namespace {

constexpr Micros second = std::chrono::seconds{1};

/// Changes of several lamps the same way at about one moment, which are seen as one.
struct SeenChange {
    Micros time{0};
    bool lit = false;
    std::size_t first = 0;  ///< among the changes
    std::size_t last = 0;
};

/// Takes changes as they come into those that are seen.
class Seeing {
  public:
    void take(const LightChange& change, std::size_t place) {
        Open& open = open_[change.lit ? 1 : 0];
        const bool joins = open.seen != none && change.time - seen_[open.seen].time <= seen_as_one &&
                           std::ranges::find(open.lamps, change.lamp) == open.lamps.end();
        if (!joins) {
            open.seen = seen_.size();
            open.lamps.clear();
            seen_.push_back({change.time, change.lit, place, place});
        }
        open.lamps.push_back(change.lamp);
        seen_[open.seen].last = place;
    }

    std::vector<SeenChange> finished() { return std::move(seen_); }

  private:
    static constexpr std::size_t none = static_cast<std::size_t>(-1);
    struct Open {
        std::size_t seen = none;
        std::vector<std::uint32_t> lamps;
    };
    std::array<Open, 2> open_;
    std::vector<SeenChange> seen_;
};

void add_lamps(FlashBurst& burst, std::span<const LightChange> changes, std::size_t first, std::size_t last) {
    for (std::size_t i = first; i <= last; ++i) {
        const auto at = std::ranges::lower_bound(burst.lamps, changes[i].lamp);
        if (at == burst.lamps.end() || *at != changes[i].lamp) {
            burst.lamps.insert(at, changes[i].lamp);
        }
    }
}

}  // namespace

std::vector<FlashBurst> flash_bursts(std::span<const LightChange> changes) {
    Seeing seeing;
    for (std::size_t i = 0; i < changes.size(); ++i) {
        seeing.take(changes[i], i);
    }
    const std::vector<SeenChange> seen = seeing.finished();
    std::vector<FlashBurst> bursts;
    std::array<int, 2> count{};
    std::size_t oldest = 0;
    std::size_t told = 0;  // changes of the last burst so far
    for (const SeenChange& change : seen) {
        ++count[change.lit ? 1 : 0];
        while (seen[oldest].time <= change.time - second) {
            --count[seen[oldest].lit ? 1 : 0];
            ++oldest;
        }
        const int flashes = std::min(count[0], count[1]);
        if (flashes <= most_flashes_in_a_second) {
            continue;
        }
        if (bursts.empty() || seen[oldest].time > bursts.back().end) {
            bursts.push_back({seen[oldest].time, change.time, flashes, {}});
            told = seen[oldest].first;
        }
        FlashBurst& burst = bursts.back();
        burst.end = change.time;
        burst.flashes = std::max(burst.flashes, flashes);
        add_lamps(burst, changes, told, change.last);
        told = change.last;
    }
    return bursts;
}

}  // namespace gasp
