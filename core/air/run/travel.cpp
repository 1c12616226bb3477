// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/travel.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

/// One way of an actuator: from the coil switching, when it begins to move and how long a full stroke then
/// takes.
struct Way {
    Micros delay{0};
    Micros full{0};  ///< 0: a jump
    double target = 0.0;
};

Way way_of(const Actuator& actuator, Coil coil) {
    const bool out = coil == Coil::out;
    const bool lets_go = !out && actuator.valve.kind != ValveKind::five_two_two_coils;
    const Figure& stated = out ? actuator.motion.out_ms : actuator.motion.back_ms;
    const Figure& delay = lets_go ? actuator.valve.closing_delay_ms : actuator.valve.opening_delay_ms;
    Way way{Micros{0}, Micros{0}, out ? 1.0 : 0.0};
    if (stated) {
        const Micros whole = std::max(Micros{0}, from_ms(*stated));
        way.delay = std::clamp(from_ms(delay.value_or(0.0)), Micros{0}, whole);
        way.full = whole - way.delay;
    }
    return way;
}

/// Builds the points: one stroke is going on at a time, and each new one cuts the last one short.
class Tracer {
  public:
    explicit Tracer(double share) : points_{{Micros{0}, share}} {}

    void stroke(Micros begin, const Way& way) {
        const double from = cut(begin);
        add(begin, from);
        const double distance = std::abs(way.target - from);
        const auto needed = std::llround(distance * static_cast<double>(way.full.count()));
        add(begin + Micros{needed}, way.target);
    }

    std::vector<TravelPoint> take() { return std::move(points_); }

  private:
    /// Drops what lies after `time` and gives the share reached there.
    double cut(Micros time) {
        double share = points_.back().share;
        while (points_.size() > 1 && points_.back().time > time) {
            const TravelPoint after = points_.back();
            points_.pop_back();
            const TravelPoint& before = points_.back();
            const double span = static_cast<double>((after.time - before.time).count());
            const double part = static_cast<double>((time - before.time).count()) / span;
            share = before.share + std::clamp(part, 0.0, 1.0) * (after.share - before.share);
        }
        return share;
    }

    void add(Micros time, double share) {
        if (points_.back() != TravelPoint{time, share}) {
            points_.push_back({time, share});
        }
    }

    std::vector<TravelPoint> points_;
};

}  // namespace

Travel travel(const Actuator& actuator, std::span<const StrokeCommand> commands, bool out_at_start) {
    Tracer tracer(out_at_start ? 1.0 : 0.0);
    Micros last{0};
    for (const StrokeCommand& command : commands) {
        if (command.actuator == actuator.id) {
            const Way way = way_of(actuator, command.way);
            // A valve with unlike delays may be asked back before it has opened: the later command wins, at
            // once.
            last = std::max(last, command.time + way.delay);
            tracer.stroke(last, way);
        }
    }
    return {tracer.take(), actuator.motion.out_ms.has_value(), actuator.motion.back_ms.has_value()};
}

bool rests_out(const Show& show, const Actuator& actuator) {
    const Channel* out = channel_of(show, actuator.id, Coil::out);
    return out != nullptr && out->contact == Contact::normally_closed;
}

double share_at(const Travel& travel, Micros time) {
    const auto after = std::upper_bound(travel.points.begin(), travel.points.end(), time,
                                        [](Micros t, const TravelPoint& point) { return t < point.time; });
    if (after == travel.points.begin()) {
        return travel.points.empty() ? 0.0 : travel.points.front().share;
    }
    const TravelPoint& before = *(after - 1);
    if (after == travel.points.end()) {
        return before.share;
    }
    const double part = static_cast<double>((time - before.time).count()) /
                        static_cast<double>((after->time - before.time).count());
    return before.share + part * (after->share - before.share);
}

MotionCurve motion_of(const Travel& travel) {
    MotionCurve curve;
    for (std::size_t i = 0; i < travel.points.size(); ++i) {
        const TravelPoint& point = travel.points[i];
        const double time = to_s(point.time);
        if (i + 1 == travel.points.size()) {
            curve.points.push_back({time, point.share, 0.0});
            break;
        }
        const TravelPoint& next = travel.points[i + 1];
        const double span = to_s(next.time) - time;
        const double speed = span > 0.0 ? (next.share - point.share) / span : 0.0;
        curve.points.push_back({time, point.share, speed});
        curve.points.push_back({to_s(next.time), next.share, speed});
    }
    return curve;
}

std::optional<Micros> stated_lead(const Actuator& actuator, Coil way, double share) {
    const Figure& stated = way == Coil::out ? actuator.motion.out_ms : actuator.motion.back_ms;
    if (!stated) {
        return {};
    }
    const Way full = way_of(actuator, way);
    return full.delay + Micros{std::llround(share * static_cast<double>(full.full.count()))};
}

}  // namespace gasp
