// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/night/night_arrivals.hpp"

#include "tests/support/catch.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

using namespace gasp;

namespace {

NightTerms at_rate(double hours, double rate) {
    NightTerms terms;
    terms.hours = hours;
    terms.groups_by_hour = {rate};
    return terms;
}

}  // namespace

TEST_CASE("the generator is SplitMix64") {
    // Published worked example: the first five outputs of seed 1234567 (Rosetta Code, Pseudo-random
    // numbers/Splitmix64; from memory).
    SplitMix64 random(1234567);
    for (const std::uint64_t expected : {6457827717110365317U, 3203168211198807973U, 9817491932198370423U,
                                         4593380528125082431U, 16408922859458223821U}) {
        CHECK(random.next() == expected);
    }
}

TEST_CASE("arrivals follow from the seed, in order and within the night") {
    const NightTerms terms = at_rate(8.0, 40.0);
    const std::vector<Micros> once = arrivals(terms, 7);
    CHECK(once == arrivals(terms, 7));
    CHECK(once != arrivals(terms, 8));
    CHECK(std::ranges::is_sorted(once));
    CHECK(once.back() < std::chrono::hours{8});
    CHECK(seed_of_night(7, 0) == 7);
    CHECK(seed_of_night(7, 1) != seed_of_night(7, 2));
}

TEST_CASE("counts of groups are Poisson: mean, variance and chi-square") {
    // 2000 hours of 8 groups each. Bins: up to 4, 5, 6, ... 11, 12 and more; probabilities of a Poisson count
    // of mean 8 by its formula. Upper critical value of chi-square for 8 degrees of freedom at 0.001: 26.125
    // (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4; from memory).
    constexpr double mean = 8.0;
    constexpr int hours = 2000;
    constexpr int lowest = 4;
    constexpr int highest = 12;
    std::array<double, highest - lowest + 1> found{};
    double sum = 0.0;
    double squares = 0.0;
    for (int hour = 0; hour < hours; ++hour) {
        const auto count = static_cast<int>(arrivals(at_rate(1.0, mean), seed_of_night(3, hour)).size());
        found[static_cast<std::size_t>(std::clamp(count, lowest, highest) - lowest)] += 1.0;
        sum += count;
        squares += static_cast<double>(count) * count;
    }
    const double average = sum / hours;
    const double variance = squares / hours - average * average;
    CHECK(std::abs(average - mean) < 4.0 * std::sqrt(mean / hours));
    // Variance of the sample variance of a Poisson count: (mu4 - sigma^4) / n = (mean + 2 mean^2) / n.
    CHECK(std::abs(variance - mean) < 4.0 * std::sqrt((mean + 2.0 * mean * mean) / hours));

    const auto probability = [](int k) { return std::exp(k * std::log(mean) - mean - std::lgamma(k + 1.0)); };
    double chi_square = 0.0;
    double rest = 1.0;
    for (std::size_t i = 0; i < found.size(); ++i) {
        double p = 0.0;
        if (i == 0) {
            for (int k = 0; k <= lowest; ++k) {
                p += probability(k);
            }
        } else {
            p = i + 1 == found.size() ? rest : probability(lowest + static_cast<int>(i));
        }
        rest -= p;
        chi_square += (found[i] - hours * p) * (found[i] - hours * p) / (hours * p);
    }
    CHECK(chi_square < 26.125);
}

TEST_CASE("each hour has its own rate, the last one holds on, and a list is taken as it is") {
    NightTerms terms = at_rate(4.0, 0.0);
    terms.groups_by_hour = {0.0, 3000.0, 30.0};
    const std::vector<Micros> came = arrivals(terms, 1);
    const auto in_hour = [&](int hour) {
        return std::ranges::count_if(came, [&](Micros t) { return t / std::chrono::hours{1} == hour; });
    };
    CHECK(in_hour(0) == 0);
    CHECK(std::abs(static_cast<double>(in_hour(1)) - 3000.0) < 4.0 * std::sqrt(3000.0));
    CHECK(std::abs(static_cast<double>(in_hour(3)) - 30.0) < 4.0 * std::sqrt(30.0));
    terms.arrivals_s = {90.0, 10.5};
    CHECK(arrivals(terms, 1) == std::vector{Micros{10'500'000}, Micros{90'000'000}});
    CHECK(arrivals(at_rate(8.0, 0.0), 1).empty());
}

TEST_CASE("terms that cannot be are named") {
    const auto named = [](NightTerms terms, const std::string& field) {
        const Result<void> checked = check(terms);
        REQUIRE_FALSE(checked);
        CHECK(checked.error().where == field);
    };
    constexpr double infinite = std::numeric_limits<double>::infinity();
    named(at_rate(0.0, 40.0), "night.hours");
    named(at_rate(std::nan(""), 40.0), "night.hours");
    named(at_rate(infinite, 40.0), "night.hours");
    named(at_rate(8.0, -1.0), "night.groups_per_h");
    named(at_rate(8.0, 1e9), "night.groups_per_h");
    NightTerms terms;
    terms.runs = 0;
    named(terms, "night.runs");
    terms = {};
    terms.weak_s = -1.0;
    named(terms, "night.weak_ms");
    terms = {};
    terms.arrivals_s = {1.0, infinite};
    named(terms, "night.arrivals_s");
}
