// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/fitting/fit_spread.hpp"

#include "core/air/fitting/damped_least_squares.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr std::size_t n = uncertain_inputs;

/// Of all inputs together, from what was thought before and each timing.
Symmetric<n> information(std::span<const TimeSlopes> strokes, double reading_ms) {
    const std::array<double, n> before = deviations_before();
    Symmetric<n> sum;
    for (std::size_t i = 0; i < n; ++i) {
        sum.a[i][i] = 1.0 / (before[i] * before[i]);
        for (std::size_t j = 0; j < n; ++j) {
            for (const TimeSlopes& slopes : strokes) {
                sum.a[i][j] += slopes[i] * slopes[j] / (reading_ms * reading_ms);
            }
        }
    }
    return sum;
}

double apart_ms(const TimeSlopes& slopes, const std::array<double, n>& deviations) {
    double sum = 0.0;
    for (std::size_t i = 0; i < n; ++i) {
        sum += slopes[i] * slopes[i] * deviations[i] * deviations[i];
    }
    return std::sqrt(sum);
}

}  // namespace

double deviation_of_spread(double spread) {
    return std::log1p(spread) / deviations_in_spread;
}

double spread_of_deviation(double deviation) {
    return std::expm1(deviations_in_spread * deviation);
}

std::array<double, uncertain_inputs> deviations_before() {
    const Fit nothing;
    std::array<double, n> deviations{};
    for (std::size_t i = 0; i < n; ++i) {
        deviations[i] = deviation_of_spread(spread_of(nothing, static_cast<Uncertain>(i)));
    }
    return deviations;
}

FitSpread fit_spread(std::span<const TimeSlopes> strokes, double reading_ms,
                     const std::array<TimeSlopes, 2>& ways, const std::array<double, 2>& misfit_ms) {
    const Symmetric<n> known = information(strokes, reading_ms);
    FitSpread spread;
    for (std::size_t i = 0; i < n; ++i) {
        std::array<double, n> unit{};
        unit[i] = 1.0;
        // Positive definite: what was thought before is.
        spread.alone[i] = std::sqrt(known.solve(unit).value_or(unit)[i]);
    }
    double share = 0.0;
    for (std::size_t way = 0; way < ways.size(); ++way) {
        const TimeSlopes& slopes = ways[way];
        const std::array<double, n> covariant = known.solve(slopes).value_or(slopes);
        double variance = 0.0;
        for (std::size_t i = 0; i < n; ++i) {
            variance += slopes[i] * covariant[i];
        }
        spread.time_before_ms[way] = apart_ms(slopes, deviations_before());
        spread.time_ms[way] = std::hypot(std::sqrt(variance), misfit_ms[way]);
        const double apart = apart_ms(slopes, spread.alone);
        share = std::max(share, apart > 0.0 ? spread.time_ms[way] / apart : 1.0);
    }
    for (std::size_t i = 0; i < n; ++i) {
        spread.together[i] = std::min(1.0, share) * spread.alone[i];
    }
    return spread;
}

}  // namespace gasp
