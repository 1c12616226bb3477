// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

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
constexpr double borne_for_ever = 1.1;

}  // namespace

std::span<const double> standard_fuses_a() {
    return blade_fuses;
}

bool fuse_bears(double fuse_a, double pulse_a, double pulse_ms) {
    const double times = pulse_a / fuse_a;
    if (times <= borne_for_ever) {
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
    for (const double fuse : blade_fuses) {
        if (fuse > wire_a) {
            break;
        }
        if (fuse >= least_fuse_a(continuous_a) && fuse_bears(fuse, pulse_a, pulse_ms)) {
            return fuse;
        }
    }
    return std::nullopt;
}

}  // namespace gasp
