// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/power/conductor.hpp"

#include "core/units/gauge.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace gasp {
namespace {

struct Ampacity {
    int gauge;
    double amps;
};

// Rising with the area. 30 to 26 AWG: the column for 75 C, as that for 60 C has none.
constexpr std::array<Ampacity, 19> ampacities{{{30, 0.5},
                                               {28, 0.8},
                                               {26, 1.0},
                                               {24, 2.0},
                                               {22, 3.0},
                                               {20, 5.0},
                                               {18, 7.0},
                                               {16, 10.0},
                                               {14, 15.0},
                                               {12, 20.0},
                                               {10, 30.0},
                                               {8, 40.0},
                                               {6, 55.0},
                                               {4, 70.0},
                                               {3, 85.0},
                                               {2, 95.0},
                                               {1, 110.0},
                                               {0, 125.0},
                                               {-3, 195.0}}};

/// By this much a size may be below its gauge's area and still count as it: sizes are written rounded.
constexpr double rounding = 0.005;

constexpr std::array<double, 20> metric_wires{0.14, 0.25, 0.34, 0.5,  0.75, 1.0,  1.5,  2.5,  4.0,   6.0,
                                              10.0, 16.0, 25.0, 35.0, 50.0, 70.0, 95.0, 120., 150.0, 185.0};

const std::array<double, 15>& gauge_wires() {
    static const std::array<double, 15> areas = [] {
        constexpr std::array<int, 15> gauges{24, 22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 0, -1, -3};
        std::array<double, 15> made{};
        std::ranges::transform(gauges, made.begin(), area_of_gauge);
        return made;
    }();
    return areas;
}

}  // namespace

double copper_ohm_per_m(double mm2, double celsius, bool stranded) {
    constexpr double ohm_mm2_per_m = 1.0 / 58.0;
    constexpr double per_kelvin = 0.00393;
    constexpr double slant = 1.02;
    return ohm_mm2_per_m / mm2 * (1.0 + per_kelvin * (celsius - 20.0)) * (stranded ? slant : 1.0);
}

std::optional<double> ampacity_a(double mm2) {
    const double area = mm2 * (1.0 + rounding);
    std::size_t thinner = 0;  // or as thick
    while (thinner < ampacities.size() && area_of_gauge(ampacities[thinner].gauge) <= area) {
        ++thinner;
    }
    if (thinner == 0) {
        return std::nullopt;
    }
    const Ampacity& below = ampacities[thinner - 1];
    const double low = area_of_gauge(below.gauge);
    if (thinner == ampacities.size() || mm2 <= low) {
        return below.amps;
    }
    const Ampacity& above = ampacities[thinner];
    const double power = std::log(above.amps / below.amps) / std::log(area_of_gauge(above.gauge) / low);
    return below.amps * std::pow(mm2 / low, power);
}

std::span<const double> standard_wires_mm2(UnitSystem system) {
    return system == UnitSystem::us ? std::span<const double>(gauge_wires())
                                    : std::span<const double>(metric_wires);
}

std::optional<double> smallest_wire_mm2(const WireTask& task, UnitSystem system) {
    for (const double mm2 : standard_wires_mm2(system)) {
        const double drop = task.current_a * copper_ohm_per_m(mm2) * task.carried_m;
        const std::optional<double> bears = ampacity_a(mm2);
        if (drop <= task.most_drop_v && bears && *bears >= task.bears_a) {
            return mm2;
        }
    }
    return std::nullopt;
}

}  // namespace gasp
