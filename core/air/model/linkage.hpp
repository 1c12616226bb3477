// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/blank_field.hpp"
#include "core/show/rig.hpp"
#include "core/units/error.hpp"

#include <complex>
#include <string_view>
#include <vector>

namespace gasp {

/// How the figure's centre of mass moves with the rod, at one travel of the rod.
struct Gearing {
    double height = 0.0;        ///< m, above where it is with the rod in
    double height_slope = 0.0;  ///< dy/dx
    double path_squared = 0.0;  ///< (ds/dx)^2: the figure's mass counts that often at the rod
    double path_bend = 0.0;     ///< ds/dx d2s/dx2 in 1/m: half of what path_squared gains with x
};

/// The blank fields that a Mechanism of this actuator needs.
[[nodiscard]] std::vector<BlankField> blanks_of_linkage(const Actuator& actuator);

/// A linkage in SI, ready to be asked at any travel of the rod from 0 to the stroke.
/// Direct: the figure goes along a line at Load's angle, Load's ratio times as far as the rod.
/// Lever: with f from pivot to foot, p from pivot to rod pin and l = closed length + x from foot to pin, the
/// angle between f and p is acos((f2 + p2 - l2) / 2fp) (law of cosines); the arm turns by what it gains.
/// Swing arms: the first arm is such a lever, the coupler's place follows from the four-bar's closure.
/// Table: the arm's slope by a not-a-knot cubic spline through the points.
class Mechanism {
  public:
    /// Of an actuator's linkage and load, `stroke` in m. Error: names the blank field; for a linkage that
    /// locks within the stroke, the travel at which it does.
    [[nodiscard]] static Result<Mechanism> make(const Actuator& actuator, double stroke);

    [[nodiscard]] Gearing at(double travel) const;
    /// Of the arm above the horizontal, rad; there is none where the figure goes with the rod.
    [[nodiscard]] double slope_at(double travel) const { return arm_slope(travel).value; }

  private:
    using Vector = std::complex<double>;  ///< of the figure's plane: across, up

    /// A place or an angle with its first two derivatives by the rod's travel.
    template <class T>
    struct Derivatives {
        T value{};
        T first{};
        T second{};
    };

    [[nodiscard]] Derivatives<double> arm_slope(double travel) const;
    [[nodiscard]] Derivatives<double> slope_by_lever(double travel) const;
    [[nodiscard]] Derivatives<double> slope_by_table(double travel) const;
    [[nodiscard]] Derivatives<Vector> place(double travel) const;
    [[nodiscard]] Derivatives<Vector> along_coupler(const Derivatives<Vector>& arm_end) const;
    [[nodiscard]] Result<void> check_lever(double stroke, std::string_view name) const;
    [[nodiscard]] Result<void> check_closure(double stroke, std::string_view name) const;
    [[nodiscard]] Result<void> take_table(const Linkage& linkage, double stroke, std::string_view name);
    [[nodiscard]] Result<void> check(const Linkage& linkage, double stroke, std::string_view name);

    LinkageKind kind_ = LinkageKind::direct;
    Gearing direct_;
    double turn_ = 1.0;
    double foot_ = 0.0;
    double pin_ = 0.0;
    double closed_ = 0.0;
    double arm_ = 0.0;
    double slope_at_rest_ = 0.0;
    double second_arm_ = 0.0;
    double coupler_ = 0.0;
    double mass_share_ = 0.5;
    Vector ground_;
    double side_ =
        1.0;  ///< on which side of the line between the coupler's end and the second pivot it bends
    double height_at_rest_ = 0.0;
    std::vector<double> knots_;
    std::vector<double> slopes_;  ///< at the knots
    std::vector<double> bends_;   ///< second derivatives at the knots
};

}  // namespace gasp
