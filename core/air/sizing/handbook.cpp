// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/handbook.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp {

namespace {

constexpr double pa_per_kpa = 1e3;
constexpr double min_per_h = 60.0;

/// m2.
double annulus(double bore_mm, double rod_mm) {
    return std::numbers::pi / 4.0 * (bore_mm * bore_mm - rod_mm * rod_mm) * 1e-6;
}

}  // namespace

double piston_force_n(double bore_mm, double rod_mm, double kpa_gauge) {
    return annulus(bore_mm, rod_mm) * kpa_gauge * pa_per_kpa;
}

double bore_for_force_mm(double force_n, double kpa_gauge) {
    return std::sqrt(force_n / (kpa_gauge * pa_per_kpa) * 4.0 / std::numbers::pi) * 1e3;
}

double choked_exhaust_speed_m_s(double c_l_s_bar, double bore_mm, double rod_mm) {
    return c_l_s_bar * 1e-3 / annulus(bore_mm, rod_mm);
}

double conductance_for_speed_l_s_bar(double speed_m_s, double bore_mm, double rod_mm) {
    return speed_m_s * annulus(bore_mm, rod_mm) * 1e3;
}

double receiver_for_draw_l(double free_air_l, double fall_kpa, double ambient_kpa) {
    return free_air_l * ambient_kpa / fall_kpa;
}

double receiver_for_starts_l(double draw_l_min, double delivery_l_min, double starts_per_h, double switch_kpa,
                             double ambient_kpa) {
    const double share = std::min(1.0, draw_l_min / delivery_l_min);
    return draw_l_min * min_per_h * (1.0 - share) * ambient_kpa / (starts_per_h * switch_kpa);
}

}  // namespace gasp
