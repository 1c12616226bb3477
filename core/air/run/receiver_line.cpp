// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/receiver_line.hpp"

#include "core/air/run/curve_writer.hpp"

#include <algorithm>

namespace gasp {
namespace {

/// Fewer points, but the lowest stays: it is what is written beside the curve.
Curve thinned(const std::vector<CurvePoint>& points, double lowest_at_s, double ambient_kpa) {
    constexpr double kept_within = 3e-4;
    Curve curve;
    CurveWriter writer(curve, kept_within, ambient_kpa);
    for (const CurvePoint& point : points) {
        writer.add(point.time_s, point.value);
        if (point.time_s == lowest_at_s) {
            writer.finish();
        }
    }
    writer.finish();
    return curve;
}

}  // namespace

ReceiverLine receiver_line(const PlantModel& plant, double start, std::vector<DrawStep> steps,
                           double length_s) {
    std::ranges::sort(steps, {}, &DrawStep::time_s);
    QuietReceiver receiver(plant, {}, start);
    const int running = receiver.state().on ? 1 : 0;
    Curve traced;
    receiver.trace(&traced);
    double draw = 0.0;
    for (const DrawStep& step : steps) {
        if (step.time_s >= length_s) {
            break;
        }
        receiver.advance_to(step.time_s);
        draw += step.kg_per_s;
        receiver.draw(std::max(draw, 0.0));
    }
    receiver.advance_to(length_s);
    const QuietReceiver::State& end = receiver.state();
    const double ambient_kpa = plant.ambient_pressure * 1e-3;
    return {thinned(traced.points, end.lowest_at_s, ambient_kpa), end.lowest * 1e-3 - ambient_kpa,
            end.lowest_at_s, end.on_s, end.starts + running};
}

}  // namespace gasp
