// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/power/current_ranges.hpp"

#include <array>

namespace gasp {
namespace {

constexpr std::array<double, 14> blade_fuses{1.0,  2.0,  3.0,  4.0,  5.0,  7.5,  10.0,
                                             15.0, 20.0, 25.0, 30.0, 35.0, 40.0, 60.0};

struct Opening {
    double times;     ///< its rating
    double after_ms;  ///< it may open, not sooner
};
constexpr std::array<Opening, 4> openings{{{1.35, 750.0}, {2.0, 150.0}, {3.5, 40.0}, {6.0, 20.0}}};

template <class Bears>
std::optional<double> smallest(double continuous_a, double wire_a, Bears bears) {
    for (const double fuse : blade_fuses) {
        if (fuse > wire_a) {
            break;
        }
        if (fuse >= least_fuse_a(continuous_a) && bears(fuse)) {
            return fuse;
        }
    }
    return std::nullopt;
}

}  // namespace

std::span<const double> standard_fuses_a() {
    return blade_fuses;
}

bool fuse_bears(double fuse_a, double pulse_a, double pulse_ms) {
    const double times = pulse_a / fuse_a;
    if (times <= fuse_bears_for_ever) {
        return true;
    }
    for (const Opening& opening : openings) {
        if (times <= opening.times) {
            return pulse_ms <= opening.after_ms;
        }
    }
    return false;
}

std::optional<double> fitting_fuse_a(double continuous_a, double pulse_a, double pulse_ms, double wire_a) {
    return smallest(continuous_a, wire_a, [&](double fuse) { return fuse_bears(fuse, pulse_a, pulse_ms); });
}

bool fuse_bears(double fuse_a, const CurrentCurve& curve, Micros length) {
    double above = fuse_bears_for_ever;
    for (const Opening& opening : openings) {
        if (longest_above(curve, length, above * fuse_a) > from_ms(opening.after_ms)) {
            return false;
        }
        above = opening.times;
    }
    return amps(curve.peak) <= above * fuse_a;
}

std::optional<double> fitting_fuse_a(double continuous_a, const CurrentCurve& curve, Micros length,
                                     double wire_a) {
    return smallest(continuous_a, wire_a, [&](double fuse) { return fuse_bears(fuse, curve, length); });
}

}  // namespace gasp
