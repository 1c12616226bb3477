// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/current_curve.hpp"

#include "core/power/current_walk.hpp"

#include <cmath>

namespace gasp {
namespace {

/// A curve as it grows: its last point is open until a later one comes.
class GrowingCurve {
  public:
    explicit GrowingCurve(MicroAmps standing) : current_(standing), steady_(standing) {}

    void step(const CurrentStep& step) {
        if (step.time != since_) {
            close(step.time);
        }
        current_ += step.total;
        steady_ += step.steady;
    }

    CurrentCurve finished(Micros length) {
        if (length > since_ || curve_.points.empty()) {
            close(length);
        }
        curve_.charge_as = charge_ * 1e-12;
        curve_.square_a2s = square_ * 1e-18;
        return std::move(curve_);
    }

    void reserve(std::size_t points) { curve_.points.reserve(points); }

  private:
    /// The stretch up to `time` is over: what it was counts.
    void close(Micros time) {
        if (current_ != last_) {
            curve_.points.push_back({since_, current_});
            last_ = current_;
        }
        if (current_ > curve_.peak) {
            curve_.peak = current_;
            curve_.peak_at = since_;
        }
        if (steady_ > curve_.steady_peak) {
            curve_.steady_peak = steady_;
            curve_.steady_peak_at = since_;
        }
        const auto stretch = static_cast<double>((time - since_).count());
        const auto current = static_cast<double>(current_);
        charge_ += current * stretch;
        square_ += current * current * stretch;
        since_ = time;
    }

    CurrentCurve curve_;
    Micros since_{0};
    MicroAmps current_;
    MicroAmps steady_;
    MicroAmps last_ = -1;  ///< of the last point; no current is below 0
    double charge_ = 0.0;  ///< in millionths of amperes and seconds, which spares a division each time
    double square_ = 0.0;
};

}  // namespace

MicroAmps micro_amps(double amps) {
    return std::llround(amps * 1e6);
}

double CurrentCurve::average_a(Micros length) const {
    return length > Micros{0} ? charge_as / to_s(length) : 0.0;
}

double CurrentCurve::rms_a(Micros length) const {
    return length > Micros{0} ? std::sqrt(square_a2s / to_s(length)) : 0.0;
}

std::vector<CurrentCurve> current_curves(std::span<const LoadDraw> loads, std::span<const MicroAmps> standing,
                                         std::span<const LoadSwitch> switches, Micros length) {
    std::vector<GrowingCurve> growing(standing.begin(), standing.end());
    for (GrowingCurve& curve : growing) {
        curve.reserve(2 * switches.size() / standing.size() + 2);  // each with its surge
    }
    CurrentWalk(loads).run(switches, length,
                           [&](const CurrentStep& step) { growing[loads[step.load].supply].step(step); });
    std::vector<CurrentCurve> curves;
    curves.reserve(growing.size());
    for (GrowingCurve& curve : growing) {
        curves.push_back(curve.finished(length));
    }
    return curves;
}

}  // namespace gasp
