// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/fitting/damped_least_squares.hpp"
#include "tests/support/catch.hpp"

#include <array>
#include <cmath>
#include <span>
#include <vector>

using namespace gasp;

// The solver behind the fit against certified results: NIST, Statistical Reference Datasets, Nonlinear
// Regression (itl.nist.gov/div898/strd/nls): parameters, their standard deviations, residual sum of squares.

namespace {

struct Observation {
    double y;
    double x;
};

/// Fits in the logarithms of the parameters over their starts, as the fit of strokes does, and compares.
template <std::size_t n, class Model>
void check_certified(std::span<const Observation> data, Model model, const std::array<double, n>& start,
                     const std::array<double, n>& certified, const std::array<double, n>& deviations,
                     double certified_sum) {
    const auto parameters = [&](const std::array<double, n>& x) {
        std::array<double, n> b = start;
        for (std::size_t i = 0; i < n; ++i) {
            b[i] *= std::exp(x[i]);
        }
        return b;
    };
    const auto found = damped_least_squares<n>([&](const std::array<double, n>& x) {
        std::vector<double> off;
        for (const Observation& each : data) {
            off.push_back(each.y - model(parameters(x), each.x));
        }
        return std::optional(off);
    });
    REQUIRE(found.has_value());
    CHECK(found->sum == Approx(certified_sum).epsilon(1e-6));
    const std::array<double, n> b = parameters(found->at);
    Symmetric<n> normal;
    for (const Observation& each : data) {
        std::array<double, n> slopes{};
        for (std::size_t i = 0; i < n; ++i) {
            std::array<double, n> above = b;
            std::array<double, n> below = b;
            above[i] *= 1.0 + 1e-5;
            below[i] *= 1.0 - 1e-5;
            slopes[i] = (model(above, each.x) - model(below, each.x)) / 2e-5;
        }
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t j = 0; j < n; ++j) {
                normal.a[i][j] += slopes[i] * slopes[j];
            }
        }
    }
    const double residual = std::sqrt(certified_sum / static_cast<double>(data.size() - n));
    for (std::size_t i = 0; i < n; ++i) {
        CHECK(b[i] == Approx(certified[i]).epsilon(1e-4));
        std::array<double, n> unit{};
        unit[i] = 1.0;
        CHECK(std::sqrt(normal.solve(unit).value()[i]) * residual * b[i] ==
              Approx(deviations[i]).epsilon(1e-4));
    }
}

}  // namespace

TEST_CASE("Misra1a: y = b1 (1 - exp(-b2 x)), from both of its starts", "[reference]") {
    constexpr std::array<Observation, 14> data{{{10.07, 77.6},
                                                {14.73, 114.9},
                                                {17.94, 141.1},
                                                {23.93, 190.8},
                                                {29.61, 239.9},
                                                {35.18, 289.0},
                                                {40.02, 332.8},
                                                {44.82, 378.4},
                                                {50.76, 434.8},
                                                {55.05, 477.3},
                                                {61.01, 536.8},
                                                {66.40, 593.1},
                                                {75.47, 689.1},
                                                {81.78, 760.0}}};
    for (const auto& start : {std::array{500.0, 0.0001}, std::array{250.0, 0.0005}}) {
        check_certified<2>(
            data, [](const std::array<double, 2>& b, double x) { return b[0] * (1.0 - std::exp(-b[1] * x)); },
            start, {2.3894212918e+02, 5.5015643181e-04}, {2.7070075241e+00, 7.2668688436e-06},
            1.2455138894e-01);
    }
}

TEST_CASE("Rat42: y = b1 / (1 + exp(b2 - b3 x)), from both of its starts", "[reference]") {
    constexpr std::array<Observation, 9> data{{{8.930, 9.0},
                                               {10.800, 14.0},
                                               {18.590, 21.0},
                                               {22.330, 28.0},
                                               {39.350, 42.0},
                                               {56.110, 57.0},
                                               {61.730, 63.0},
                                               {64.620, 70.0},
                                               {67.080, 79.0}}};
    for (const auto& start : {std::array{100.0, 1.0, 0.1}, std::array{75.0, 2.5, 0.07}}) {
        check_certified<3>(
            data,
            [](const std::array<double, 3>& b, double x) { return b[0] / (1.0 + std::exp(b[1] - b[2] * x)); },
            start, {7.2462237576e+01, 2.6180768402e+00, 6.7359200066e-02},
            {1.7340283401e+00, 8.8295217536e-02, 3.4465663377e-03}, 8.0565229338e+00);
    }
}
