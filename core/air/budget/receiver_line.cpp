// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/receiver_line.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

constexpr double longest_step_s = 0.25;
constexpr double kept_within = 5e-4;

class Receiver {
  public:
    Receiver(const PlantModel& plant, double start)
        : plant_(plant),
          per_kg_(gas_constant * plant.ambient_temperature / plant.receiver),
          pressure_(start),
          on_(plant.cut_out > 0.0 && start <= plant.cut_in) {
        line_.lowest_kpa = gauge();
        line_.compressor_starts = on_ ? 1 : 0;
        points_.push_back({0.0, gauge()});
    }

    void advance(double until, double draw) {
        while (time_ < until) {
            step(std::min(until - time_, longest_step_s), draw);
        }
    }

    [[nodiscard]] ReceiverLine take() {
        // The lowest point stays: it is what is written beside the curve.
        const auto lowest = std::ranges::min_element(points_, {}, &CurvePoint::value);
        const double floor = -plant_.ambient_pressure * 1e-3;
        line_.kpa.points = thinned({points_.begin(), lowest + 1}, kept_within, floor);
        const auto after = thinned({lowest, points_.end()}, kept_within, floor);
        line_.kpa.points.insert(line_.kpa.points.end(), after.begin() + 1, after.end());
        return std::move(line_);
    }

  private:
    [[nodiscard]] double gauge() const { return (pressure_ - plant_.ambient_pressure) * 1e-3; }

    [[nodiscard]] double slope(double pressure, double draw) const {
        const double in = on_ ? std::max(plant_.delivery + plant_.delivery_slope * pressure, 0.0) : 0.0;
        const double leak = plant_.leak.c > 0.0
                                ? mass_flow(plant_.leak, pressure, plant_.ambient_temperature,
                                            plant_.ambient_pressure, plant_.ambient_temperature)
                                : 0.0;
        return per_kg_ * (in - leak - draw);
    }

    /// One step of the midpoint rule, cut where the switch acts.
    void step(double h, double draw) {
        const double half = pressure_ + 0.5 * h * slope(pressure_, draw);
        const double rate = slope(half, draw);
        double next = pressure_ + h * rate;
        const double limit = on_ ? plant_.cut_out : plant_.cut_in;
        const bool switches = plant_.cut_out > 0.0 && (on_ ? next >= limit : next <= limit);
        if (switches && rate != 0.0) {
            h = std::clamp((limit - pressure_) / rate, 0.0, h);
            next = limit;
        }
        line_.compressor_on_s += on_ ? h : 0.0;
        pressure_ = std::max(next, 0.0);
        time_ += h;
        if (switches) {
            on_ = !on_;
            line_.compressor_starts += on_ ? 1 : 0;
        }
        points_.push_back({time_, gauge()});
        if (gauge() < line_.lowest_kpa) {
            line_.lowest_kpa = gauge();
            line_.lowest_at_s = time_;
        }
    }

    const PlantModel& plant_;
    double per_kg_;
    double pressure_;
    bool on_;
    double time_ = 0.0;
    ReceiverLine line_;
    std::vector<CurvePoint> points_;
};

}  // namespace

ReceiverLine receiver_line(const PlantModel& plant, double start, std::vector<DrawStep> steps,
                           double length_s) {
    std::ranges::sort(steps, {}, &DrawStep::time_s);
    Receiver receiver(plant, start);
    double draw = 0.0;
    for (const DrawStep& step : steps) {
        if (step.time_s >= length_s) {
            break;
        }
        receiver.advance(step.time_s, std::max(draw, 0.0));
        draw += step.kg_per_s;
    }
    receiver.advance(length_s, std::max(draw, 0.0));
    return receiver.take();
}

std::vector<CurvePoint> thinned(const std::vector<CurvePoint>& points, double share, double floor) {
    if (points.size() < 3) {
        return points;
    }
    // A line from the last point kept may go on as long as it passes each point since within the tolerance.
    std::vector<CurvePoint> kept{points.front()};
    constexpr double any = std::numeric_limits<double>::infinity();
    double least = -any;
    double most = any;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const CurvePoint& from = kept.back();
        const double dt = points[i].time_s - from.time_s;
        const double rise = points[i].value - from.value;
        if (dt > 0.0 && (rise / dt < least || rise / dt > most)) {
            kept.push_back(points[i - 1]);
            least = -any;
            most = any;
        }
        const CurvePoint& base = kept.back();
        const double span = points[i].time_s - base.time_s;
        if (span > 0.0) {
            const double allowed = share * std::abs(points[i].value - floor);
            least = std::max(least, (points[i].value - base.value - allowed) / span);
            most = std::min(most, (points[i].value - base.value + allowed) / span);
        }
    }
    kept.push_back(points.back());
    return kept;
}

}  // namespace gasp
