// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

// First guesses as handbooks give them, for sizing. The simulation has the last word.

/// Force of a piston, N: gauge pressure times its area, less that of the rod where the air presses on the
/// rod's side (0 for the other side).
[[nodiscard]] double piston_force_n(double bore_mm, double rod_mm, double kpa_gauge);

/// The bore of a piston that has this force, mm, rod left out.
[[nodiscard]] double bore_for_force_mm(double force_n, double kpa_gauge);

/// Steady speed, m/s, of a piston that pushes its air out through a choked conductance of so many L/(s bar):
/// C x 1 bar / area.
[[nodiscard]] double choked_exhaust_speed_m_s(double c_l_s_bar, double bore_mm, double rod_mm);

/// The conductance, L/(s bar), for that speed.
[[nodiscard]] double conductance_for_speed_l_s_bar(double speed_m_s, double bore_mm, double rod_mm);

/// The receiver, L, that gives so much free air (L) while its pressure falls by so much (kPa), isothermally
/// and with the air around at so many kPa absolute: V = free air x ambient / fall.
[[nodiscard]] double receiver_for_draw_l(double free_air_l, double fall_kpa, double ambient_kpa);

/// The receiver, L, with which a compressor of this delivery starts no oftener than so many times an hour
/// while so much is drawn on average (both L/min at ambient), its switch so many kPa wide:
/// V = draw (1 - draw / delivery) ambient / (starts x width), since a start comes with every fill and fall.
[[nodiscard]] double receiver_for_starts_l(double draw_l_min, double delivery_l_min, double starts_per_h,
                                           double switch_kpa, double ambient_kpa);

}  // namespace gasp
