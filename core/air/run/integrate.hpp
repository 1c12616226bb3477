// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace gasp {

/// An autonomous system of ordinary differential equations, y' = f(y).
class Equations {
  public:
    Equations() = default;
    Equations(const Equations&) = delete;
    Equations& operator=(const Equations&) = delete;
    virtual ~Equations() = default;
    virtual void derive(const double* y, double* slopes) = 0;
};

/// One step of an embedded method of order 4 or 5 with its interpolation, in place of time from 0 to 1.
class Step {
  public:
    Step() = default;
    Step(const Step&) = delete;
    Step& operator=(const Step&) = delete;
    virtual ~Step() = default;

    /// Makes ready for systems of n unknowns.
    virtual void resize(std::size_t n) = 0;
    /// The next attempt starts elsewhere, or the equations have changed.
    void restart() { ready_ = false; }
    /// The next attempt starts where the last one ended.
    virtual void carry_on() = 0;
    /// Tries a step of length h from `y`. Returns the root mean square of the error over the tolerance of
    /// each unknown, infinite where the step left the numbers.
    virtual double attempt(Equations& equations, std::span<const double> y, double h,
                           std::span<const double> tolerance) = 0;
    [[nodiscard]] std::span<const double> result() const { return result_; }
    /// Unknown `i` at a share of the step.
    [[nodiscard]] virtual double at(std::size_t i, double share) const = 0;
    /// The power of h with which the error grows, less one.
    [[nodiscard]] virtual double order() const = 0;

  protected:
    std::vector<double> result_;
    bool ready_ = false;  ///< what the step works out at its start is there already
};

/// Dormand and Prince's method of order 5 (4) with its interpolation of order 4 (J. Comput. Appl. Math. 6,
/// 1980; Hairer, Norsett, Wanner, Solving Ordinary Differential Equations I, II.5 and II.6). Explicit.
class DormandPrince : public Step {
  public:
    void resize(std::size_t n) override;
    void carry_on() override;
    double attempt(Equations& equations, std::span<const double> y, double h,
                   std::span<const double> tolerance) override;
    [[nodiscard]] double at(std::size_t i, double share) const override;
    [[nodiscard]] double order() const override { return 5.0; }
    /// h times an estimate of the equations' fastest rate: beyond about 3 it is stability that holds the step
    /// down and no longer accuracy (Hairer, Wanner II, IV.2).
    [[nodiscard]] double stiffness() const { return stiffness_; }

  private:
    [[nodiscard]] double* k(std::size_t stage) { return slopes_.data() + stage * n_; }
    double error(double h, std::span<const double> tolerance) const;
    void measure_stiffness(double h);
    void interpolate(double h) const;

    std::size_t n_ = 0;
    std::vector<double> slopes_;
    std::vector<double> start_;
    std::vector<double> inner_;
    std::vector<double> before_last_;
    mutable std::vector<double> bends_;  ///< of the interpolation, worked out when first asked for
    mutable bool interpolated_ = false;
    double h_ = 0.0;
    double stiffness_ = 0.0;
};

/// Hairer and Wanner's Rosenbrock method of order 4 (3), L-stable and stiffly accurate (RODAS; Solving
/// Ordinary Differential Equations II, IV.7). Its Jacobian is taken by differences, once a step.
class Rosenbrock : public Step {
  public:
    void resize(std::size_t n) override;
    void carry_on() override;
    double attempt(Equations& equations, std::span<const double> y, double h,
                   std::span<const double> tolerance) override;
    [[nodiscard]] double at(std::size_t i, double share) const override;
    [[nodiscard]] double order() const override { return 4.0; }

  private:
    [[nodiscard]] double* k(std::size_t stage) { return increments_.data() + stage * n_; }
    void differentiate(Equations& equations, std::span<const double> y);
    bool factor(double h);
    void solve(double* right) const;
    void solve_stage(Equations& equations, std::size_t stage, double h);

    std::size_t n_ = 0;
    std::vector<double> increments_;
    std::vector<double> slope_;
    std::vector<double> start_;
    std::vector<double> inner_;
    std::vector<double> jacobian_;
    std::vector<double> lower_upper_;
    std::vector<double> per_diagonal_;  ///< 1 over each of its diagonal
    std::vector<std::size_t> pivots_;
};

}  // namespace gasp
