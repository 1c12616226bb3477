// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/fitting/timed_apart.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

namespace gasp {
namespace {

constexpr std::size_t least_alike = 3;
constexpr double too_many_spreads = 3.5;
constexpr double spread_of_median = 1.4826;  // a normal distribution's deviation over its median distance

/// Requires: not empty.
double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*std::max_element(values.begin(), middle) + *middle) / 2.0;
}

}  // namespace

bool alike(const TimedStroke& one, const TimedStroke& other) {
    return one.way == other.way && one.from_click == other.from_click;
}

bool stands_apart(const TimedStroke& stroke, std::span<const TimedStroke> strokes, double stated_ms) {
    std::vector<double> times;
    for (const TimedStroke& each : strokes) {
        if (alike(each, stroke)) {
            times.push_back(each.ms);
        }
    }
    if (times.size() < least_alike) {
        return false;
    }
    const double middle = median(times);
    for (double& ms : times) {
        ms = std::abs(ms - middle);
    }
    const double spread = std::max(stated_ms, spread_of_median * median(times));
    return std::abs(stroke.ms - middle) > too_many_spreads * spread;
}

}  // namespace gasp
