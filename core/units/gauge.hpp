// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace gasp {

// Wire by American wire gauge. A gauge is a whole number, 36 for the thinnest of the standard's two ends;
// the sizes above 0 are written 2/0, 3/0, 4/0 and counted -1, -2, -3.

inline constexpr int thickest_gauge = -3;
inline constexpr int thinnest_gauge = 40;

/// Area of a solid round wire of that gauge, in mm2. ASTM B258: the diameter is 0.005 in for 36 and 0.46 in
/// for 4/0, the 39 steps between them in one ratio.
[[nodiscard]] double area_of_gauge(int gauge);

/// The gauge whose area is within half a percent of this one; none where it is no gauge's.
[[nodiscard]] std::optional<int> gauge_of_area(double mm2);

/// "18 AWG", "4/0 AWG".
[[nodiscard]] std::string gauge_text(int gauge);

/// Reads "18 AWG", "AWG 18", "18 ga", "#18", "4/0 AWG"; where `bare` a whole number or one over 0 alone, too.
/// Nothing where the text is not of that form, or the gauge not from 4/0 to 40.
[[nodiscard]] std::optional<int> read_gauge(std::string_view text, bool bare);

}  // namespace gasp
