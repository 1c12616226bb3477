// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/integrate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

// Hairer, Norsett, Wanner I, table 5.2.
constexpr std::array<double, 1> a2{1.0 / 5};
constexpr std::array<double, 2> a3{3.0 / 40, 9.0 / 40};
constexpr std::array<double, 3> a4{44.0 / 45, -56.0 / 15, 32.0 / 9};
constexpr std::array<double, 4> a5{19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729};
constexpr std::array<double, 5> a6{9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656};
constexpr std::array<double, 6> a7{35.0 / 384, 0.0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84};
constexpr std::array<double, 7> error_weights{71.0 / 57600,      0.0,          -71.0 / 16695, 71.0 / 1920,
                                              -17253.0 / 339200, 22.0 / 525.0, -1.0 / 40};
constexpr std::array<double, 7> bend_weights{-12715105075.0 / 11282082432.0,  0.0,
                                             87487479700.0 / 32700410799.0,   -10690763975.0 / 1880347072.0,
                                             701980252875.0 / 199316789632.0, -1453857185.0 / 822651844.0,
                                             69997945.0 / 29380423.0};

template <std::size_t count>
double weighted(const double* slopes, std::size_t n, std::size_t i,
                const std::array<double, count>& weights) {
    double sum = 0.0;
    for (std::size_t stage = 0; stage < count; ++stage) {
        sum += weights[stage] * slopes[stage * n + i];
    }
    return sum;
}

double mean_of_squares(double sum, std::size_t n) {
    const double mean = std::sqrt(sum / static_cast<double>(std::max<std::size_t>(n, 1)));
    return std::isfinite(mean) ? mean : std::numeric_limits<double>::infinity();
}

}  // namespace

void DormandPrince::resize(std::size_t n) {
    n_ = n;
    slopes_.assign(7 * n, 0.0);
    start_.assign(n, 0.0);
    inner_.assign(n, 0.0);
    before_last_.assign(n, 0.0);
    bends_.assign(n, 0.0);
    result_.assign(n, 0.0);
}

double DormandPrince::attempt(Equations& equations, std::span<const double> y, double h,
                              std::span<const double> tolerance) {
    std::copy(y.begin(), y.end(), start_.begin());
    if (!ready_) {
        equations.derive(start_.data(), k(0));
    }
    ready_ = true;
    const auto stage = [&](std::size_t next, const auto& weights, std::vector<double>& place) {
        for (std::size_t i = 0; i < n_; ++i) {
            place[i] = start_[i] + h * weighted(slopes_.data(), n_, i, weights);
        }
        equations.derive(place.data(), k(next));
    };
    stage(1, a2, inner_);
    stage(2, a3, inner_);
    stage(3, a4, inner_);
    stage(4, a5, inner_);
    stage(5, a6, before_last_);
    stage(6, a7, result_);
    h_ = h;
    interpolated_ = false;
    measure_stiffness(h);
    return error(h, tolerance);
}

void DormandPrince::carry_on() {
    std::copy_n(k(6), n_, k(0));
}

double DormandPrince::error(double h, std::span<const double> tolerance) const {
    double sum = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
        const double error = h * weighted(slopes_.data(), n_, i, error_weights) / tolerance[i];
        sum += error * error;
    }
    return mean_of_squares(sum, n_);
}

void DormandPrince::measure_stiffness(double h) {
    double slope = 0.0;
    double place = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
        const double scale = 1.0 / std::max(std::abs(result_[i]), 1e-12);
        const double of_slope = (slopes_[6 * n_ + i] - slopes_[5 * n_ + i]) * scale;
        const double of_place = (result_[i] - before_last_[i]) * scale;
        slope += of_slope * of_slope;
        place += of_place * of_place;
    }
    stiffness_ = place > 0.0 ? h * std::sqrt(slope / place) : 0.0;
}

void DormandPrince::interpolate(double h) const {
    for (std::size_t i = 0; i < n_; ++i) {
        bends_[i] = h * weighted(slopes_.data(), n_, i, bend_weights);
    }
    interpolated_ = true;
}

double DormandPrince::at(std::size_t i, double share) const {
    if (!interpolated_) {
        interpolate(h_);
    }
    const double rest = 1.0 - share;
    const double way = result_[i] - start_[i];
    const double bow = h_ * slopes_[i] - way;
    const double twist = way - h_ * slopes_[6 * n_ + i] - bow;
    return start_[i] + share * (way + rest * (bow + share * (twist + rest * bends_[i])));
}

namespace {

// Hairer, Wanner II, table 7.2 with the coefficients of their program RODAS (method 1).
constexpr double diagonal = 0.25;
constexpr std::array<std::array<double, 5>, 6> rodas_a{{
    {},
    {1.544},
    {0.9466785280815826, 0.2557011698983284},
    {3.314825187068521, 2.896124015972201, 0.9986419139977817},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950},
    {1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950, 1.0},
}};
constexpr std::array<std::array<double, 5>, 6> rodas_c{{
    {},
    {-5.6688},
    {-2.430093356833875, -0.2063599157091915},
    {-0.1073529058151375, -9.594562251023355, -20.47028614809616},
    {7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160},
    {8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054},
}};
constexpr std::array<double, 5> rodas_first{10.12623508344586, -7.487995877610167, -34.80091861555747,
                                            -7.992771707568823, 1.025137723295662};
constexpr std::array<double, 5> rodas_second{-0.6762803392801253, 6.087714651680015, 16.43084320892478,
                                             24.76722511418386, -6.594389125716872};

}  // namespace

void Rosenbrock::resize(std::size_t n) {
    n_ = n;
    increments_.assign(6 * n, 0.0);
    slope_.assign(n, 0.0);
    start_.assign(n, 0.0);
    inner_.assign(n, 0.0);
    result_.assign(n, 0.0);
    jacobian_.assign(n * n, 0.0);
    lower_upper_.assign(n * n, 0.0);
    per_diagonal_.assign(n, 0.0);
    pivots_.assign(n, 0);
}

void Rosenbrock::carry_on() {
    ready_ = false;
}

void Rosenbrock::differentiate(Equations& equations, std::span<const double> y) {
    std::copy(y.begin(), y.end(), inner_.begin());
    double* moved = k(0);
    for (std::size_t j = 0; j < n_; ++j) {
        constexpr double share = 1.5e-8;  // the root of what a double resolves
        constexpr double floor = 1e-4;    // of the unknown, where it is near 0
        const double by = share * std::max(std::abs(y[j]), floor);
        inner_[j] = y[j] + by;
        equations.derive(inner_.data(), moved);
        const double per = 1.0 / (inner_[j] - y[j]);
        for (std::size_t i = 0; i < n_; ++i) {
            jacobian_[i * n_ + j] = (moved[i] - slope_[i]) * per;
        }
        inner_[j] = y[j];
    }
}

bool Rosenbrock::factor(double h) {
    for (std::size_t i = 0; i < n_ * n_; ++i) {
        lower_upper_[i] = -jacobian_[i];
    }
    for (std::size_t i = 0; i < n_; ++i) {
        lower_upper_[i * n_ + i] += 1.0 / (h * diagonal);
    }
    double* const m = lower_upper_.data();
    for (std::size_t column = 0; column < n_; ++column) {
        std::size_t pivot = column;
        for (std::size_t row = column + 1; row < n_; ++row) {
            if (std::abs(m[row * n_ + column]) > std::abs(m[pivot * n_ + column])) {
                pivot = row;
            }
        }
        pivots_[column] = pivot;
        if (!(std::abs(m[pivot * n_ + column]) > 0.0)) {
            return false;
        }
        if (pivot != column) {
            std::swap_ranges(m + pivot * n_, m + (pivot + 1) * n_, m + column * n_);
        }
        per_diagonal_[column] = 1.0 / m[column * n_ + column];
        for (std::size_t row = column + 1; row < n_; ++row) {
            const double factor = m[row * n_ + column] *= per_diagonal_[column];
            if (factor != 0.0) {
                for (std::size_t i = column + 1; i < n_; ++i) {
                    m[row * n_ + i] -= factor * m[column * n_ + i];
                }
            }
        }
    }
    return true;
}

void Rosenbrock::solve(double* right) const {
    const double* const m = lower_upper_.data();
    for (std::size_t i = 0; i < n_; ++i) {
        std::swap(right[i], right[pivots_[i]]);
    }
    for (std::size_t i = 0; i < n_; ++i) {
        double rest = right[i];
        for (std::size_t j = 0; j < i; ++j) {
            rest -= m[i * n_ + j] * right[j];
        }
        right[i] = rest;
    }
    for (std::size_t i = n_; i-- > 0;) {
        double rest = right[i];
        for (std::size_t j = i + 1; j < n_; ++j) {
            rest -= m[i * n_ + j] * right[j];
        }
        right[i] = rest * per_diagonal_[i];
    }
}

void Rosenbrock::solve_stage(Equations& equations, std::size_t stage, double h) {
    for (std::size_t i = 0; i < n_; ++i) {
        double place = start_[i];
        for (std::size_t j = 0; j < stage; ++j) {
            place += rodas_a[stage][j] * increments_[j * n_ + i];
        }
        inner_[i] = place;
    }
    double* const right = k(stage);
    if (stage == 0) {
        std::copy(slope_.begin(), slope_.end(), right);
    } else {
        equations.derive(inner_.data(), right);
    }
    for (std::size_t i = 0; i < n_; ++i) {
        double sum = 0.0;
        for (std::size_t j = 0; j < stage; ++j) {
            sum += rodas_c[stage][j] * increments_[j * n_ + i];
        }
        right[i] += sum / h;
    }
    solve(right);
}

double Rosenbrock::attempt(Equations& equations, std::span<const double> y, double h,
                           std::span<const double> tolerance) {
    std::copy(y.begin(), y.end(), start_.begin());
    if (!ready_) {
        equations.derive(start_.data(), slope_.data());
        differentiate(equations, y);
    }
    ready_ = true;
    if (!factor(h)) {
        return std::numeric_limits<double>::infinity();
    }
    for (std::size_t stage = 0; stage < 6; ++stage) {
        solve_stage(equations, stage, h);
    }
    double sum = 0.0;
    for (std::size_t i = 0; i < n_; ++i) {
        // The last increment is the error, and what the last stage but one is short of.
        result_[i] = inner_[i] + increments_[5 * n_ + i];
        const double error = increments_[5 * n_ + i] / tolerance[i];
        sum += error * error;
    }
    return mean_of_squares(sum, n_);
}

double Rosenbrock::at(std::size_t i, double share) const {
    double first = 0.0;
    double second = 0.0;
    for (std::size_t stage = 0; stage < 5; ++stage) {
        first += rodas_first[stage] * increments_[stage * n_ + i];
        second += rodas_second[stage] * increments_[stage * n_ + i];
    }
    const double rest = 1.0 - share;
    return start_[i] * rest + share * (result_[i] + rest * (first + share * second));
}

}  // namespace gasp
