// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/fuse.hpp"

#include "core/power/current_ranges.hpp"

#include <algorithm>
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

MicroAmps peaks_above(MicroAmps rest, std::span<const FuseRun> runs) {
    MicroAmps sum = 0;
    for (const FuseRun& run : runs) {
        sum += std::max<MicroAmps>(run.curve->peak - rest, 0);
    }
    return sum;
}

/// Whether the sum of the runs may stay above a current for longer than so long. It cannot where one of them
/// does not stay so long above what the peaks of the others leave, nor where the largest shares of all in
/// such a window do not add up to it, of which none counts for more than is enough alone.
bool may_stay_above(MicroAmps level, Micros longer_than, MicroAmps rest, std::span<const FuseRun> runs) {
    const MicroAmps enough = level - rest + 1;
    if (enough <= 0) {
        return true;
    }
    const MicroAmps peaks = peaks_above(rest, runs);
    if (peaks < enough) {
        return false;
    }
    const Micros window = longer_than + Micros{1};
    std::int64_t charge = 0;
    for (const FuseRun& run : runs) {
        const MicroAmps others = peaks - std::max<MicroAmps>(run.curve->peak - rest, 0);
        if (most_charge(*run.curve, run.length, window, {level - others, 1}) < window.count()) {
            return false;
        }
        charge += most_charge(*run.curve, run.length, window, {rest, enough});
    }
    return charge >= enough * window.count();
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

bool fuse_bears(double fuse_a, MicroAmps rest, std::span<const FuseRun> runs) {
    double above = fuse_bears_for_ever;
    for (const Opening& opening : openings) {
        if (may_stay_above(micro_amps(above * fuse_a), from_ms(opening.after_ms), rest, runs)) {
            return false;
        }
        above = opening.times;
    }
    return rest + peaks_above(rest, runs) <= micro_amps(above * fuse_a);
}

std::optional<double> fitting_fuse_a(double continuous_a, MicroAmps rest, std::span<const FuseRun> runs,
                                     double wire_a) {
    return smallest(continuous_a, wire_a, [&](double fuse) { return fuse_bears(fuse, rest, runs); });
}

}  // namespace gasp
