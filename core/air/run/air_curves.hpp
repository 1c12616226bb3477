// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <vector>

namespace gasp {

// What a run leaves for drawing: few points, a bounded error in between.

/// A point of a motion: where, and how fast.
struct MotionPoint {
    double time_s = 0.0;
    double share = 0.0;  ///< of the stroke
    double share_per_s = 0.0;
    bool operator==(const MotionPoint&) const = default;
};

/// Cubic between two points (Hermite, by places and speeds), within 1e-4 of the stroke of the simulation;
/// level before the first and after the last. Two points of one time are an end stop reached at speed.
struct MotionCurve {
    std::vector<MotionPoint> points;
    [[nodiscard]] double share_at(double time_s) const;
    [[nodiscard]] double share_at(Micros time) const { return share_at(to_s(time)); }
};

struct CurvePoint {
    double time_s = 0.0;
    double value = 0.0;
    bool operator==(const CurvePoint&) const = default;
};

/// Straight lines between points, within 0.1 % of the absolute pressure; level before the first and after the
/// last.
struct Curve {
    std::vector<CurvePoint> points;
    [[nodiscard]] double at(double time_s) const;
    [[nodiscard]] double at(Micros time) const { return at(to_s(time)); }
};

}  // namespace gasp
