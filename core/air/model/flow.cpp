// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/flow.hpp"

#include "core/air/model/flow_path.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

double mass_flow(const Conductance& path, double up_pressure, double up_temperature, double down_pressure,
                 double down_temperature) {
    return FlowPath(path).flow(up_pressure, up_temperature, down_pressure, down_temperature);
}

double forward_flow(const Conductance& path, double up_pressure, double up_temperature,
                    double down_pressure) {
    return down_pressure < up_pressure ? FlowPath(path).one_way(up_pressure, up_temperature, down_pressure)
                                       : 0.0;
}

Conductance in_series(const Conductance& first, const Conductance& second) {
    if (first.c <= 0.0 || second.c <= 0.0) {
        return {0.0, first.b};
    }
    const double b1 = first.b;
    double c = first.c;
    if (second.c * b1 < first.c) {
        const double ratio = second.c / first.c;
        const double k = 1.0 + ratio * ratio * (1.0 - b1) * (1.0 - b1);
        c = second.c * (b1 + std::sqrt(b1 * b1 + (1.0 - 2.0 * b1) * k)) / k;
    }
    const double b =
        1.0 - c * c * ((1.0 - b1) / (first.c * first.c) + (1.0 - second.b) / (second.c * second.c));
    return {c, b};
}

Conductance in_parallel(const Conductance& one, const Conductance& other) {
    const double c = one.c + other.c;
    if (c <= 0.0) {
        return {0.0, one.b};
    }
    constexpr double ratio = 0.9;
    const auto share = [](double b) {
        const double z = b < ratio ? (ratio - b) / (1.0 - b) : 0.0;
        return std::sqrt(1.0 - z * z);
    };
    const double both = (one.c * share(one.b) + other.c * share(other.b)) / c;
    const double z = std::sqrt(std::max(0.0, 1.0 - both * both));
    return {c, z > 0.0 ? (ratio - z) / (1.0 - z) : std::min(one.b, other.b)};
}

Conductance of_tube(double length, double bore) {
    const double area = bore * bore;
    const double c = 0.029 * area / std::sqrt(length / std::pow(bore, 1.25) + 510.0);
    return {c, 474.0 * c / area};
}

double wave_delay(double length, double temperature) {
    return length / std::sqrt(heat_ratio * gas_constant * temperature);
}

Conductance of_leak(double volume, double temperature, double ambient, double from, double to, double time,
                    double b) {
    // dt = -V dp / (R T q), with q for a conductance of 1; Simpson's rule over the logarithm of the pressure.
    const FlowPath unit(Conductance{1.0, b});
    constexpr int parts = 2000;
    const double step = std::log(from / to) / parts;
    double sum = 0.0;
    for (int i = 0; i <= parts; ++i) {
        const double pressure = to * std::exp(step * i);
        const double weight = i == 0 || i == parts ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
        sum += weight * pressure / unit.one_way(pressure, temperature, ambient);
    }
    return {sum * step / 3.0 * volume / (gas_constant * temperature) / time, b};
}

}  // namespace gasp
