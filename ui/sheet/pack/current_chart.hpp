// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"
#include "core/show/rig.hpp"

class QPainter;
class QRectF;

namespace gasp {

/// The current of a supply over a sequence, on paper: in tenths of a millimetre.
struct CurrentChart {
    const CurrentCurve& curve;
    Micros length{0};
    Figure rated_a;    ///< a line each, where it is known
    Figure planned_a;  ///< the share of it to plan with
};

/// Requires: a length above 0, a curve with points.
void paint_chart(QPainter& painter, const QRectF& box, const CurrentChart& chart);

}  // namespace gasp
