// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/air_curves.hpp"

#include "core/air/run/curve_writer.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// The first point later than a time, and at least the second one; needs two points and a time among them.
template <class Point>
std::size_t after(const std::vector<Point>& points, double time_s) {
    const auto place = std::upper_bound(points.begin(), points.end(), time_s,
                                        [](double time, const Point& point) { return time < point.time_s; });
    return static_cast<std::size_t>(place - points.begin());
}

double hermite(const MotionPoint& from, const MotionPoint& to, double time_s) {
    const double length = to.time_s - from.time_s;
    const double t = (time_s - from.time_s) / length;
    const double rest = 1.0 - t;
    const double way = to.share - from.share;
    return from.share + t * (way + rest * (rest * (from.share_per_s * length - way) -
                                           t * (to.share_per_s * length - way)));
}

void halve(MotionCurve& curve, const MotionPoint& end, const std::function<MotionPoint(double)>& at,
           int depth) {
    constexpr double allowed = 5e-5;
    constexpr int deepest = 6;
    const MotionPoint from = curve.points.back();
    const MotionPoint middle = at((from.time_s + end.time_s) / 2.0);
    if (depth < deepest && std::abs(hermite(from, end, middle.time_s) - middle.share) > allowed) {
        halve(curve, middle, at, depth + 1);
        halve(curve, end, at, depth + 1);
    } else {
        curve.points.push_back(end);
    }
}

}  // namespace

double MotionCurve::share_at(double time_s) const {
    if (points.empty()) {
        return 0.0;
    }
    const std::size_t next = after(points, time_s);
    if (next == 0 || next == points.size()) {
        return next == 0 ? points.front().share : points.back().share;
    }
    return hermite(points[next - 1], points[next], time_s);
}

double Curve::at(double time_s) const {
    if (points.empty()) {
        return 0.0;
    }
    const std::size_t next = after(points, time_s);
    if (next == 0 || next == points.size()) {
        return next == 0 ? points.front().value : points.back().value;
    }
    const CurvePoint& from = points[next - 1];
    const CurvePoint& to = points[next];
    return from.value + (to.value - from.value) * (time_s - from.time_s) / (to.time_s - from.time_s);
}

void CurveWriter::open(double slope_low, double slope_high) {
    low_ = slope_low;
    high_ = slope_high;
}

void CurveWriter::add(double time, double value) {
    const CurvePoint point{time, value};
    if (curve_.points.empty()) {
        curve_.points.push_back(point);
        return;
    }
    const CurvePoint* last = &curve_.points.back();
    if (holds_ && time <= held_.time_s) {
        held_ = point;
        return;
    }
    if (time <= last->time_s) {
        return;
    }
    const double allowed = share_ * (std::abs(value) + ambient_);
    if (holds_) {
        const double slope = (value - last->value) / (time - last->time_s);
        if (slope < low_ || slope > high_) {
            curve_.points.push_back(held_);
            last = &curve_.points.back();
            holds_ = false;
        }
    }
    const double span = time - last->time_s;
    const double low = (value - allowed - last->value) / span;
    const double high = (value + allowed - last->value) / span;
    open(holds_ ? std::max(low_, low) : low, holds_ ? std::min(high_, high) : high);
    held_ = point;
    holds_ = true;
}

void CurveWriter::finish() {
    if (holds_) {
        curve_.points.push_back(held_);
        holds_ = false;
    }
}

void add_motion(MotionCurve& curve, const MotionPoint& end, const std::function<MotionPoint(double)>& at) {
    halve(curve, end, at, 0);
}

}  // namespace gasp
