// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/night_limits.hpp"
#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

namespace gasp {

/// The pseudo-random numbers of a night, so that anyone can draw the same ones: SplitMix64 (Steele, Lea and
/// Flood, Fast splittable pseudorandom number generators, OOPSLA 2014).
class SplitMix64 {
  public:
    static constexpr std::string_view name = "SplitMix64";
    explicit SplitMix64(std::uint64_t seed) : state_(seed) {}
    std::uint64_t next();
    /// 0 <= x < 1, of the upper 53 bits.
    double next_share();

  private:
    std::uint64_t state_;
};

/// When groups come, and what counts as a good scare.
struct NightTerms {
    double hours = night_where_blank::hours;
    /// Groups an hour in each hour from opening; the last holds for the hours that follow. One: all night.
    std::vector<double> groups_by_hour{night_where_blank::groups_per_h};
    std::vector<double> arrivals_s;  ///< where not empty, every night has these in place of random ones
    std::uint64_t seed = night_where_blank::seed;
    double weak_s =
        night_where_blank::weak_ms * 1e-3;  ///< a strike later than its usual moment by more is weak
    int runs = night_where_blank::runs;     ///< nights
    bool operator==(const NightTerms&) const = default;
};

/// Error: names the figure that cannot be, with its range.
[[nodiscard]] Result<void> check(const NightTerms& terms);

/// The seed of one of many nights: the first night has the seed itself.
[[nodiscard]] std::uint64_t seed_of_night(std::uint64_t seed, int night);

/// The moments at which groups arrive, in order, all before the night's end: Poisson, or the list. With the
/// same seed and twice the rate the same groups come at closer intervals, and more of them.
[[nodiscard]] std::vector<Micros> arrivals(const NightTerms& terms, std::uint64_t seed);

}  // namespace gasp
