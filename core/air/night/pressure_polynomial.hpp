// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <span>
#include <vector>

namespace gasp {

/// Chebyshev's extreme points on a stretch, 2^k + 1 of them so that fewer are among more, and the polynomial
/// through values there by the barycentric formula (Berrut and Trefethen, Barycentric Lagrange interpolation,
/// SIAM Review 46, 2004, 5.4: weights 1, -1, 1, ... halved at both ends).
class PressurePolynomial {
  public:
    PressurePolynomial(double low, double high, std::size_t points)
        : low_(low), high_(high), points_(points) {}

    [[nodiscard]] double point(std::size_t i) const {
        if (i == 0 || i + 1 == points_) {
            return i == 0 ? low_ : high_;
        }
        const double share =
            0.5 *
            (1.0 - std::cos(std::numbers::pi * static_cast<double>(i) / static_cast<double>(points_ - 1)));
        return low_ + (high_ - low_) * share;
    }

    static constexpr std::size_t most_points = 9;

    /// What each point's value counts for at `x`; they add up to 1.
    [[nodiscard]] std::array<double, most_points> shares_at(double x) const {
        std::array<double, most_points> shares{};
        double sum = 0.0;
        for (std::size_t i = 0; i < points_; ++i) {
            const double distance = x - point(i);
            if (distance == 0.0) {
                shares.fill(0.0);
                shares[i] = 1.0;
                return shares;
            }
            const double end = i == 0 || i + 1 == points_ ? 0.5 : 1.0;
            shares[i] = (i % 2 == 0 ? end : -end) / distance;
            sum += shares[i];
        }
        for (double& share : shares) {
            share /= sum;
        }
        return shares;
    }

    [[nodiscard]] std::size_t points() const { return points_; }

  private:
    double low_;
    double high_;
    std::size_t points_;
};

}  // namespace gasp
