// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_arrivals.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr double hour_s = 3600.0;
constexpr double longest_night_h = 24.0;
constexpr double most_weak_s = 10.0;
constexpr std::size_t most_arrivals = 100'000;

std::uint64_t mixed(std::uint64_t z) {
    z = (z ^ (z >> 30U)) * 0xbf58476d1ce4e5b9U;
    z = (z ^ (z >> 27U)) * 0x94d049bb133111ebU;
    return z ^ (z >> 31U);
}

Result<void> within(double value, double least, double most, std::string_view label, std::string_view key,
                    std::string_view unit) {
    if (value >= least && value <= most) {
        return {};
    }
    return fail(fmt::format("{} is {:g}{}, outside {:g} to {:g}{}", label, value, unit, least, most, unit),
                fmt::format("night.{}", key), "Correct it");
}

Micros moment(double s) {
    return Micros{std::llround(s * 1e6)};
}

/// Groups expected up to a moment, upside down: the moment by which so many are expected. Past the night's
/// end where they never are.
class Expectation {
  public:
    explicit Expectation(const NightTerms& terms) : terms_(terms) {}

    /// Requires: `groups` not less than at the call before.
    double moment_s(double groups) {
        while (hour_ < terms_.hours) {
            const double rate = terms_.groups_by_hour[std::min(static_cast<std::size_t>(hour_),
                                                               terms_.groups_by_hour.size() - 1)];
            if (groups < before_ + rate) {
                return (hour_ + (groups - before_) / rate) * hour_s;
            }
            before_ += rate;
            hour_ += 1.0;
        }
        return longest_night_h * hour_s * 2.0;
    }

  private:
    const NightTerms& terms_;
    double hour_ = 0.0;
    double before_ = 0.0;
};

}  // namespace

std::uint64_t SplitMix64::next() {
    state_ += 0x9e3779b97f4a7c15U;
    return mixed(state_);
}

double SplitMix64::next_share() {
    return static_cast<double>(next() >> 11U) * 0x1p-53;
}

Result<void> check(const NightTerms& terms) {
    constexpr double least_night_h = 1.0 / 60.0;
    Result<void> good =
        within(terms.hours, least_night_h, longest_night_h, "length of the night", "hours", " h");
    if (good && terms.groups_by_hour.empty() && terms.arrivals_s.empty()) {
        good = fail("there is no rate of groups", "night.groups_per_h", "Enter groups an hour");
    }
    for (std::size_t i = 0; good && i < terms.groups_by_hour.size(); ++i) {
        good = within(terms.groups_by_hour[i], 0.0, most_groups_per_h, "rate of groups",
                      terms.groups_by_hour.size() == 1 ? "groups_per_h" : "groups_by_hour", " an hour");
    }
    if (good && terms.arrivals_s.size() > most_arrivals) {
        good = fail(fmt::format("there are {} arrivals", terms.arrivals_s.size()), "night.arrivals_s",
                    fmt::format("List at most {}", most_arrivals));
    }
    for (std::size_t i = 0; good && i < terms.arrivals_s.size(); ++i) {
        good = within(terms.arrivals_s[i], 0.0, terms.hours * hour_s, "arrival", "arrivals_s", " s");
    }
    if (good) {
        good =
            within(terms.weak_s * 1e3, 0.0, most_weak_s * 1e3, "lateness of a weak scare", "weak_ms", " ms");
    }
    return good ? within(terms.runs, 1, most_nights, "number of nights", "runs", "") : good;
}

std::uint64_t seed_of_night(std::uint64_t seed, int night) {
    // Mixed, since seeds that differ by the generator's own step would give shifted copies of one stream.
    return night == 0 ? seed : mixed(mixed(seed) + static_cast<std::uint64_t>(night));
}

std::vector<Micros> arrivals(const NightTerms& terms, std::uint64_t seed) {
    std::vector<Micros> moments;
    if (!terms.arrivals_s.empty()) {
        std::ranges::transform(terms.arrivals_s, std::back_inserter(moments), moment);
        std::ranges::sort(moments);
        return moments;
    }
    SplitMix64 random(seed);
    Expectation expectation(terms);
    double groups = 0.0;
    while (true) {
        groups -= std::log1p(-random.next_share());  // the gaps of a Poisson process of rate 1
        const double s = expectation.moment_s(groups);
        if (s >= terms.hours * hour_s) {
            return moments;
        }
        moments.push_back(moment(s));
    }
}

}  // namespace gasp
