// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/linkage.hpp"

#include "core/units/quantity.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <span>

namespace gasp {
namespace {

/// The nearest a linkage may come to locking: the sine of the angle at which its parts line up.
constexpr double least_sine = 0.02;
constexpr int travels_tried = 1000;

/// A figure that a kind of linkage needs.
struct Need {
    Figure Linkage::*figure;
    std::string_view key;
    std::string_view label;
};

constexpr Need arm_needs[]{{&Linkage::arm_mm, "linkage.arm_mm", "arm"}};
constexpr Need lever_needs[]{
    {&Linkage::foot_mm, "linkage.foot_mm", "pivot to foot"},
    {&Linkage::pin_mm, "linkage.pin_mm", "pivot to rod pin"},
    {&Linkage::closed_mm, "linkage.closed_mm", "foot to rod pin"},
    {&Linkage::arm_deg, "linkage.arm_deg", "slope of the arm"},
};
constexpr Need swing_needs[]{
    {&Linkage::second_arm_mm, "linkage.second_arm_mm", "second arm"},
    {&Linkage::coupler_mm, "linkage.coupler_mm", "coupler"},
    {&Linkage::ground_mm, "linkage.ground_mm", "pivot to pivot"},
    {&Linkage::ground_deg, "linkage.ground_deg", "slope from pivot to pivot"},
};

double metres(const Figure& mm) {
    return si(Quantity::small_length, mm.value_or(0.0));
}

double radians(const Figure& degrees) {
    return si(Quantity::angle, degrees.value_or(0.0));
}

tl::unexpected<Error> locks(double travel, std::string_view name, std::string why) {
    return fail(
        fmt::format("the linkage of \"{}\" locks at {:.1f} mm of travel: {}", name, travel * 1e3, why),
        "linkage.kind", "Move its pins, or shorten the stroke");
}

/// Second derivatives at the knots of the cubic spline whose third derivative does not jump at the second
/// and the last but one knot (de Boor, A Practical Guide to Splines, 1978, chapter IV). Requires: 4 knots.
std::vector<double> spline_bends(const std::vector<double>& x, const std::vector<double>& y) {
    const std::size_t n = x.size();
    const auto h = [&](std::size_t i) { return x[i + 1] - x[i]; };
    const auto slope = [&](std::size_t i) { return (y[i + 1] - y[i]) / h(i); };
    std::vector<double> low(n), mid(n), high(n), right(n);
    for (std::size_t i = 1; i + 1 < n; ++i) {
        low[i] = h(i - 1);
        mid[i] = 2.0 * (h(i - 1) + h(i));
        high[i] = h(i);
        right[i] = 6.0 * (slope(i) - slope(i - 1));
    }
    // Not-a-knot: the outermost bend follows from the next two, which leaves n - 2 equations.
    const double first = h(0) / h(1);
    const double last = h(n - 2) / h(n - 3);
    mid[1] += low[1] * (1.0 + first);
    high[1] -= low[1] * first;
    mid[n - 2] += high[n - 2] * (1.0 + last);
    low[n - 2] -= high[n - 2] * last;
    for (std::size_t i = 2; i + 1 < n; ++i) {
        const double factor = low[i] / mid[i - 1];
        mid[i] -= factor * high[i - 1];
        right[i] -= factor * right[i - 1];
    }
    std::vector<double> bends(n);
    bends[n - 2] = right[n - 2] / mid[n - 2];
    for (std::size_t i = n - 3; i >= 1; --i) {
        bends[i] = (right[i] - high[i] * bends[i + 1]) / mid[i];
    }
    bends[0] = (1.0 + first) * bends[1] - first * bends[2];
    bends[n - 1] = (1.0 + last) * bends[n - 2] - last * bends[n - 3];
    return bends;
}

double dot(std::complex<double> a, std::complex<double> b) {
    return a.real() * b.real() + a.imag() * b.imag();
}

double cross(std::complex<double> a, std::complex<double> b) {
    return a.real() * b.imag() - a.imag() * b.real();
}

}  // namespace

std::vector<BlankField> blanks_of_linkage(const Actuator& actuator) {
    BlankFields blanks(&actuator);
    const auto need = [&](std::span<const Need> needs) {
        for (const Need& each : needs) {
            blanks.need(actuator.linkage.*each.figure, each.key, each.label);
        }
    };
    const LinkageKind kind = actuator.linkage.kind;
    if (kind == LinkageKind::direct) {
        blanks.need(actuator.load.angle_deg, "load.angle_deg", "slope of the way out");
        return blanks.take();
    }
    need(arm_needs);
    if (kind != LinkageKind::table) {
        need(lever_needs);
    }
    if (kind == LinkageKind::swing_arms) {
        need(swing_needs);
    }
    return blanks.take();
}

Result<Mechanism> Mechanism::make(const Actuator& actuator, double stroke) {
    if (const auto blanks = blanks_of_linkage(actuator); !blanks.empty()) {
        return tl::unexpected(blank_error(blanks.front()));
    }
    const Linkage& linkage = actuator.linkage;
    Mechanism made;
    made.kind_ = linkage.kind;
    made.turn_ = linkage.turn == ArmTurn::rises ? 1.0 : -1.0;
    made.foot_ = metres(linkage.foot_mm);
    made.pin_ = metres(linkage.pin_mm);
    made.closed_ = metres(linkage.closed_mm);
    made.arm_ = metres(linkage.arm_mm);
    made.slope_at_rest_ = radians(linkage.arm_deg);
    made.second_arm_ = metres(linkage.second_arm_mm);
    made.coupler_ = metres(linkage.coupler_mm);
    made.ground_ = std::polar(metres(linkage.ground_mm), radians(linkage.ground_deg));
    made.mass_share_ = si(Quantity::percent, linkage.mass_percent.value_or(50.0));
    if (linkage.kind == LinkageKind::direct) {
        const double ratio = actuator.load.ratio.value_or(1.0);
        made.direct_ = {0.0, ratio * std::sin(radians(actuator.load.angle_deg)), ratio * ratio, 0.0};
        return made;
    }
    if (const Result<void> fits = made.check(linkage, stroke, actuator.name); !fits) {
        return tl::unexpected(fits.error());
    }
    made.height_at_rest_ = made.place(0.0).value.imag();
    return made;
}

Result<void> Mechanism::check(const Linkage& linkage, double stroke, std::string_view name) {
    if (linkage.kind == LinkageKind::table) {
        return take_table(linkage, stroke, name);
    }
    Result<void> fits = check_lever(stroke, name);
    if (fits && linkage.kind == LinkageKind::swing_arms) {
        // Not crossed: both arms on one side of the line between their pivots.
        side_ = cross(ground_, std::polar(arm_, slope_at_rest_)) < 0.0 ? -1.0 : 1.0;
        fits = check_closure(stroke, name);
    }
    return fits;
}

Result<void> Mechanism::check_lever(double stroke, std::string_view name) const {
    // The sine of the angle between foot and pin is what the rod pushes with.
    for (int i = 0; i <= travels_tried; ++i) {
        const double travel = stroke * i / travels_tried;
        const double length = closed_ + travel;
        const double cosine = (foot_ * foot_ + pin_ * pin_ - length * length) / (2.0 * foot_ * pin_);
        if (std::abs(cosine) > std::sqrt(1.0 - least_sine * least_sine)) {
            return locks(travel, name, "foot, pivot and rod pin stand in one line");
        }
    }
    return {};
}

Result<void> Mechanism::check_closure(double stroke, std::string_view name) const {
    for (int i = 0; i <= travels_tried; ++i) {
        const double travel = stroke * i / travels_tried;
        const double gap = std::abs(ground_ - std::polar(arm_, arm_slope(travel).value));
        const double cosine =
            (coupler_ * coupler_ + second_arm_ * second_arm_ - gap * gap) / (2.0 * coupler_ * second_arm_);
        if (!(std::abs(cosine) < std::sqrt(1.0 - least_sine * least_sine))) {
            return locks(travel, name, "coupler and second arm stand in one line");
        }
    }
    return {};
}

Result<void> Mechanism::take_table(const Linkage& linkage, double stroke, std::string_view name) {
    constexpr std::size_t least_points = 4;
    const auto wrong = [&](std::string what) {
        return fail(fmt::format("{} of \"{}\"", what, name), "linkage.points_mm_deg",
                    "Measure the arm's slope at four travels or more, from rod in to rod out");
    };
    for (const LinkagePoint& point : linkage.points) {
        const double travel = si(Quantity::small_length, point.travel_mm);
        if (!std::isfinite(travel) || !std::isfinite(point.arm_deg) ||
            (!knots_.empty() && travel <= knots_.back())) {
            return wrong("the points are not in order of travel in the linkage");
        }
        knots_.push_back(travel);
        slopes_.push_back(si(Quantity::angle, point.arm_deg));
    }
    if (knots_.size() < least_points) {
        return wrong("there are too few points in the linkage");
    }
    constexpr double margin = 1e-9;
    if (knots_.front() > margin || knots_.back() < stroke - margin) {
        return wrong("the points do not span the stroke in the linkage");
    }
    bends_ = spline_bends(knots_, slopes_);
    const double way = slopes_.back() - slopes_.front();
    for (int i = 0; i <= travels_tried; ++i) {
        const double travel = stroke * i / travels_tried;
        if (slope_by_table(travel).first * way <= 0.0) {
            return locks(travel, name, "by the table, the arm turns back");
        }
    }
    return {};
}

Mechanism::Derivatives<double> Mechanism::slope_by_lever(double travel) const {
    const double length = closed_ + travel;
    const double both = foot_ * pin_;
    const double cosine = (foot_ * foot_ + pin_ * pin_ - length * length) / (2.0 * both);
    const double rest_cosine = (foot_ * foot_ + pin_ * pin_ - closed_ * closed_) / (2.0 * both);
    const double sine = std::sqrt(1.0 - cosine * cosine);
    // l2 = f2 + p2 - 2fp cos(phi), differentiated once and twice by l.
    const double first = length / (both * sine);
    const double second = (1.0 - both * cosine * first * first) / (both * sine);
    const double opened = std::acos(cosine) - std::acos(rest_cosine);
    return {slope_at_rest_ + turn_ * opened, turn_ * first, turn_ * second};
}

Mechanism::Derivatives<double> Mechanism::slope_by_table(double travel) const {
    const auto after = std::upper_bound(knots_.begin() + 1, knots_.end() - 1, travel);
    const auto i = static_cast<std::size_t>(after - knots_.begin()) - 1;
    const double h = knots_[i + 1] - knots_[i];
    const double a = (knots_[i + 1] - travel) / h;
    const double b = 1.0 - a;
    const double value = a * slopes_[i] + b * slopes_[i + 1] +
                         ((a * a * a - a) * bends_[i] + (b * b * b - b) * bends_[i + 1]) * h * h / 6.0;
    const double first = (slopes_[i + 1] - slopes_[i]) / h -
                         ((3.0 * a * a - 1.0) * bends_[i] - (3.0 * b * b - 1.0) * bends_[i + 1]) * h / 6.0;
    return {value, first, a * bends_[i] + b * bends_[i + 1]};
}

Mechanism::Derivatives<double> Mechanism::arm_slope(double travel) const {
    return kind_ == LinkageKind::table ? slope_by_table(travel) : slope_by_lever(travel);
}

Mechanism::Derivatives<Mechanism::Vector> Mechanism::place(double travel) const {
    const Derivatives<double> slope = arm_slope(travel);
    const Vector end = std::polar(arm_, slope.value);
    const Vector turned(-end.imag(), end.real());
    const Derivatives<Vector> arm_end{end, turned * slope.first,
                                      turned * slope.second - end * slope.first * slope.first};
    return kind_ == LinkageKind::swing_arms ? along_coupler(arm_end) : arm_end;
}

Mechanism::Derivatives<Mechanism::Vector> Mechanism::along_coupler(const Derivatives<Vector>& a) const {
    // The coupler's far end lies on two circles, about the near end and about the second pivot.
    const Vector gap = ground_ - a.value;
    const double distance = std::abs(gap);
    const double along =
        (coupler_ * coupler_ - second_arm_ * second_arm_ + distance * distance) / (2.0 * distance);
    const double aside = std::sqrt(std::max(0.0, coupler_ * coupler_ - along * along));
    const Vector unit = gap / distance;
    const Vector far = a.value + unit * Vector(along, side_ * aside);
    const Vector coupler = far - a.value;
    const Vector second = far - ground_;
    // Both lengths stay: coupler . (far' - a') = 0 and second . far' = 0, then differentiated again.
    const auto solve = [&](double by_coupler, double by_second) {
        const double area = cross(coupler, second);
        return Vector((by_coupler * second.imag() - by_second * coupler.imag()) / area,
                      (coupler.real() * by_second - second.real() * by_coupler) / area);
    };
    const Vector first = solve(dot(coupler, a.first), 0.0);
    const Vector turning = first - a.first;
    const Vector bend = solve(dot(coupler, a.second) - dot(turning, turning), -dot(first, first));
    const double s = mass_share_;
    return {a.value + s * coupler, a.first + s * turning, a.second + s * (bend - a.second)};
}

Gearing Mechanism::at(double travel) const {
    if (kind_ == LinkageKind::direct) {
        Gearing gearing = direct_;
        gearing.height = direct_.height_slope * travel;
        return gearing;
    }
    const Derivatives<Vector> figure = place(travel);
    return {figure.value.imag() - height_at_rest_, figure.first.imag(), std::norm(figure.first),
            dot(figure.first, figure.second)};
}

}  // namespace gasp
