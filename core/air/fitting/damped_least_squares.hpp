// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

// Nobody outside this folder includes this.

namespace gasp {

/// A symmetric system of n equations, n small.
template <std::size_t n>
struct Symmetric {
    std::array<std::array<double, n>, n> a{};

    /// By Cholesky; none where it is not positive definite.
    [[nodiscard]] std::optional<std::array<double, n>> solve(std::array<double, n> b) const {
        auto l = a;
        for (std::size_t j = 0; j < n; ++j) {
            for (std::size_t k = 0; k < j; ++k) {
                l[j][j] -= l[j][k] * l[j][k];
            }
            if (!(l[j][j] > 0.0)) {
                return std::nullopt;
            }
            l[j][j] = std::sqrt(l[j][j]);
            for (std::size_t i = j + 1; i < n; ++i) {
                for (std::size_t k = 0; k < j; ++k) {
                    l[i][j] -= l[i][k] * l[j][k];
                }
                l[i][j] /= l[j][j];
            }
        }
        for (std::size_t i = 0; i < n; ++i) {
            for (std::size_t k = 0; k < i; ++k) {
                b[i] -= l[i][k] * b[k];
            }
            b[i] /= l[i][i];
        }
        for (std::size_t i = n; i-- > 0;) {
            for (std::size_t k = i + 1; k < n; ++k) {
                b[i] -= l[k][i] * b[k];
            }
            b[i] /= l[i][i];
        }
        return b;
    }
};

/// What least squares found.
template <std::size_t n>
struct LeastSquares {
    std::array<double, n> at{};
    double sum = 0.0;  ///< of the squares
};

/// Levenberg's damped steps from 0. `residuals(x)` gives residuals in units of their standard deviation, at
/// least n of them and of full rank, or none where x cannot be evaluated; none there at 0 gives none.
template <std::size_t n, class Residuals>
std::optional<LeastSquares<n>> damped_least_squares(Residuals residuals) {
    using Point = std::array<double, n>;
    const auto sum_of = [](const std::vector<double>& r) {
        double sum = 0.0;
        for (const double each : r) {
            sum += each * each;
        }
        return sum;
    };
    LeastSquares<n> best;
    std::optional<std::vector<double>> r = residuals(best.at);
    if (!r) {
        return std::nullopt;
    }
    best.sum = sum_of(*r);
    double damping = 1e-3;
    Symmetric<n> normal;
    Point slope{};
    const auto linearise = [&] {
        constexpr double h = 0.01;
        std::array<std::vector<double>, n> columns;
        for (std::size_t j = 0; j < n; ++j) {
            Point up = best.at;
            Point down = best.at;
            up[j] += h;
            down[j] -= h;
            auto high = residuals(up);
            auto low = residuals(down);
            const double width = h * ((high ? 1.0 : 0.0) + (low ? 1.0 : 0.0));
            high = high ? std::move(high) : r;
            low = low ? std::move(low) : r;
            columns[j].assign(r->size(), 0.0);
            for (std::size_t i = 0; i < r->size() && width > 0.0; ++i) {
                columns[j][i] = ((*high)[i] - (*low)[i]) / width;
            }
        }
        for (std::size_t j = 0; j < n; ++j) {
            slope[j] = 0.0;
            for (std::size_t i = 0; i < r->size(); ++i) {
                slope[j] -= columns[j][i] * (*r)[i];
            }
            for (std::size_t k = 0; k < n; ++k) {
                normal.a[j][k] = 0.0;
                for (std::size_t i = 0; i < r->size(); ++i) {
                    normal.a[j][k] += columns[j][i] * columns[k][i];
                }
            }
        }
    };
    linearise();
    for (int round = 0; round < 60; ++round) {
        Symmetric<n> damped = normal;
        for (std::size_t j = 0; j < n; ++j) {
            damped.a[j][j] *= 1.0 + damping;
        }
        const std::optional<Point> step = damped.solve(slope);
        if (!step) {
            damping *= 10.0;
            continue;
        }
        Point next = best.at;
        double length = 0.0;
        for (std::size_t j = 0; j < n; ++j) {
            next[j] += (*step)[j];
            length += (*step)[j] * (*step)[j];
        }
        auto tried = residuals(next);
        if (tried && sum_of(*tried) < best.sum) {
            best.at = next;
            best.sum = sum_of(*tried);
            r = std::move(tried);
            damping = std::max(damping * 0.1, 1e-9);
            linearise();
        } else {
            damping *= 10.0;
        }
        if (length < 1e-12 || damping > 1e12) {
            break;
        }
    }
    return best;
}

}  // namespace gasp
