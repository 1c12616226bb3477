// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/current_ranges.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

std::vector<std::optional<CurrentRange>> current_ranges(const CurrentCurve& curve, Micros length, Micros from,
                                                        Micros to, int count) {
    const auto& points = curve.points;
    std::vector<std::optional<CurrentRange>> all(static_cast<std::size_t>(count));
    const double step = static_cast<double>((to - from).count()) / count;
    const auto edge = [&](int i) { return from + Micros{std::llround(step * i)}; };
    auto next = std::ranges::upper_bound(points, edge(0), {}, &CurrentPoint::time);
    for (int i = 0; i < count; ++i) {
        if (edge(i + 1) <= Micros{0} || edge(i) >= length) {
            continue;
        }
        const double now = amps(next == points.begin() ? next->current : std::prev(next)->current);
        CurrentRange range{now, now};
        for (; next != points.end() && next->time < edge(i + 1); ++next) {
            range.low = std::min(range.low, amps(next->current));
            range.high = std::max(range.high, amps(next->current));
        }
        all[static_cast<std::size_t>(i)] = range;
    }
    return all;
}

Micros longest_above(const CurrentCurve& curve, Micros length, double amps) {
    const MicroAmps level = micro_amps(amps);
    Micros longest{0};
    Micros first{0};  // of a stretch that began at 0
    Micros stretch{0};
    for (std::size_t i = 0; i < curve.points.size(); ++i) {
        const Micros begin = curve.points[i].time;
        const Micros end = i + 1 < curve.points.size() ? curve.points[i + 1].time : length;
        stretch = curve.points[i].current > level ? stretch + (end - begin) : Micros{0};
        first = stretch == end ? stretch : first;
        longest = std::max(longest, stretch);
    }
    return std::max(longest, std::min(first + stretch, length));
}

}  // namespace gasp
