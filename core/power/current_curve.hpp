// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <cstdint>
#include <span>
#include <vector>

namespace gasp {

// The current that supplies give over time, from who is switched when. Currents are whole microamperes, so
// that sums are exact however many switchings they are made of.

using MicroAmps = std::int64_t;
[[nodiscard]] MicroAmps micro_amps(double amps);
[[nodiscard]] constexpr double amps(MicroAmps current) {
    return static_cast<double>(current) * 1e-6;
}

/// A load gets power, or loses it.
struct LoadSwitch {
    Micros time{0};
    std::uint32_t load = 0;  ///< its place among the loads
    bool on = false;
    bool operator==(const LoadSwitch&) const = default;
};

/// What a load draws.
struct LoadDraw {
    std::uint32_t supply = 0;  ///< its place among the supplies
    MicroAmps steady = 0;
    MicroAmps surge = 0;  ///< above `steady`, from switching on
    Micros surge_time{0};
    bool on_at_rest = false;  ///< it has power before the first switching, its surge long over
};

/// From here on, until the next point.
struct CurrentPoint {
    Micros time{0};
    MicroAmps current = 0;
    bool operator==(const CurrentPoint&) const = default;
};

/// What one supply gives over a stretch of time that begins at 0.
struct CurrentCurve {
    std::vector<CurrentPoint> points;  ///< the first at 0, each of another current than the one before
    MicroAmps peak = 0;
    Micros peak_at{0};
    MicroAmps steady_peak = 0;  ///< the largest without surges
    Micros steady_peak_at{0};
    double charge_as = 0.0;   ///< ampere seconds over the stretch
    double square_a2s = 0.0;  ///< the same of the current's square, which is what heats

    [[nodiscard]] double average_a(Micros length) const;
    [[nodiscard]] double rms_a(Micros length) const;
};

/// The curve of each supply. `standing` is what each gives always. Switchings in order of time; those at one
/// moment count as one; a switching that changes nothing is passed over, and so are those from `length` on.
/// Linear in the switchings, and in the few loads that surge at once.
[[nodiscard]] std::vector<CurrentCurve> current_curves(std::span<const LoadDraw> loads,
                                                       std::span<const MicroAmps> standing,
                                                       std::span<const LoadSwitch> switches, Micros length);

}  // namespace gasp
