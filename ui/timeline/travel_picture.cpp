// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/travel_picture.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

namespace gasp {
namespace {

/// One stroke's time, from its command, moved to an edge of its band.
class Warp {
  public:
    Warp(const StrokeBand& band, bool late, double share) {
        for (const std::optional<Band>& reached : band.reached_s) {
            if (reached && std::isfinite(reached->nominal)) {
                const double edge = late ? reached->high : reached->low;
                const double moved = reached->nominal + share * (edge - reached->nominal);
                knots_.push_back({reached->nominal, std::max(moved, knots_.back().to)});
            }
        }
    }

    [[nodiscard]] double operator()(double time) const {
        const auto next = std::ranges::upper_bound(knots_, time, {}, &Knot::from);
        const Knot& before = *std::prev(next);
        if (next == knots_.end()) {
            return before.to + (time - before.from);
        }
        const double part = (time - before.from) / (next->from - before.from);
        // An edge that has no end is never reached.
        return std::isinf(next->to) ? (part > 0.0 ? next->to : before.to)
                                    : before.to + part * (next->to - before.to);
    }

  private:
    struct Knot {
        double from = 0.0;
        double to = 0.0;
    };
    std::vector<Knot> knots_{{}};
};

/// The line of one stroke, [begin, end) on the ruler, moved; what would lie past its end is cut.
void add_moved(std::span<const CurvePoint> line, double begin, double end, const Warp& warp,
               std::vector<CurvePoint>& to) {
    auto point = std::ranges::lower_bound(line, begin, {}, &CurvePoint::time_s);
    double last = to.empty() ? 0.0 : to.back().value;
    for (; point != line.end() && point->time_s < end; ++point) {
        const double time = begin + warp(point->time_s - begin);
        if (time >= end) {
            break;
        }
        to.push_back({time, point->value});
        last = point->value;
    }
    if (std::isfinite(end)) {
        to.push_back({end, last});
    }
}

struct Own {
    const Stroke& stroke;
    const StrokeBand& band;
};

std::vector<CurvePoint> edge(std::span<const CurvePoint> line, std::span<const Own> strokes, bool late,
                             double share) {
    std::vector<CurvePoint> moved;
    const double first = to_s(strokes.front().stroke.command.time);
    for (const CurvePoint& point : line) {
        if (point.time_s < first) {
            moved.push_back(point);
        }
    }
    for (std::size_t i = 0; i < strokes.size(); ++i) {
        const double begin = to_s(strokes[i].stroke.command.time);
        const double end = i + 1 < strokes.size() ? to_s(strokes[i + 1].stroke.command.time)
                                                  : std::numeric_limits<double>::infinity();
        add_moved(line, begin, end, Warp(strokes[i].band, late, share), moved);
    }
    return moved;
}

}  // namespace

TravelPicture travel_picture(const MotionCurve& motion, ActuatorId actuator, std::span<const Stroke> strokes,
                             std::span<const StrokeBand> bands) {
    TravelPicture picture;
    picture.line = curve_of(motion);
    std::vector<Own> own;
    for (std::size_t i = 0; i < std::min(strokes.size(), bands.size()); ++i) {
        if (strokes[i].command.actuator == actuator) {
            own.push_back({strokes[i], bands[i]});
        }
    }
    if (own.empty()) {
        return picture;
    }
    const auto count = static_cast<double>(picture.edges.size());
    for (std::size_t i = 0; i < picture.edges.size(); ++i) {
        const double share = static_cast<double>(i + 1) / count;
        picture.edges[i] = {edge(picture.line, own, false, share), edge(picture.line, own, true, share)};
    }
    return picture;
}

}  // namespace gasp
