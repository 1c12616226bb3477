// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/band.hpp"
#include "core/air/run/air_run.hpp"
#include "ui/timeline/curve_painter.hpp"

#include <array>
#include <span>
#include <vector>

namespace gasp {

/// A figure's travel as it is drawn: the line, and around it where it may be as well.
struct TravelPicture {
    /// How early and how late the travel may be, at a share of its band.
    struct Edge {
        std::vector<CurvePoint> early;
        std::vector<CurvePoint> late;
    };
    std::vector<CurvePoint> line;
    std::array<Edge, 3> edges;  ///< a third of the band, two thirds, all of it; empty without bands
};

/// `bands` are those of `strokes`, or empty; strokes of other figures are passed over. Between the shares
/// whose times have bands, the band of the time is straight.
[[nodiscard]] TravelPicture travel_picture(const MotionCurve& motion, ActuatorId actuator,
                                           std::span<const Stroke> strokes,
                                           std::span<const StrokeBand> bands);

}  // namespace gasp
