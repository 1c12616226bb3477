// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_curves.hpp"

#include <functional>

// How a run writes its curves. Nobody outside this folder includes this.

namespace gasp {

/// Keeps as few of the points it is given as straight lines need to stay near all of them.
class CurveWriter {
  public:
    /// `share` is the error allowed, of the value; `ambient` is what a gauge value lacks of an absolute one.
    CurveWriter(Curve& curve, double share, double ambient)
        : curve_(curve), share_(share), ambient_(ambient) {}

    void add(double time, double value);
    /// Writes what is held back.
    void finish();

  private:
    void open(double slope_low, double slope_high);

    Curve& curve_;
    double share_;
    double ambient_;
    CurvePoint held_;
    bool holds_ = false;
    double low_ = 0.0;  ///< slopes from the last point written that come near all points since
    double high_ = 0.0;
};

/// Adds the motion from the last point written to `end`: `at` gives it in between, the points it needs are
/// found by halving.
void add_motion(MotionCurve& curve, const MotionPoint& end, const std::function<MotionPoint(double)>& at);

}  // namespace gasp
