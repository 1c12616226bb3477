// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <array>
#include <string_view>

namespace gasp {

/// An argument of gasp size and the figure of SizingTask it gives.
struct SizeFlag {
    std::string_view flag;
    std::string_view key;
    std::string_view value;  ///< as help names it
};

inline constexpr std::array size_flags{SizeFlag{"--lift", "lift_mm", "LENGTH"},
                                       SizeFlag{"--mass", "mass_kg", "MASS"},
                                       SizeFlag{"--out", "out_ms", "TIME"},
                                       SizeFlag{"--back", "back_ms", "TIME"},
                                       SizeFlag{"--scares", "scares_per_h", "NUMBER"},
                                       SizeFlag{"--pressure", "working_kpa_gauge", "PRESSURE"},
                                       SizeFlag{"--angle", "angle_deg", "ANGLE"},
                                       SizeFlag{"--ratio", "ratio", "NUMBER"},
                                       SizeFlag{"--strokes", "strokes_per_scare", "NUMBER"},
                                       SizeFlag{"--friction", "friction_percent", "SHARE"},
                                       SizeFlag{"--tube", "tube_m", "LENGTH"},
                                       SizeFlag{"--valve-delay", "valve_delay_ms", "TIME"},
                                       SizeFlag{"--duty", "duty_percent", "SHARE"},
                                       SizeFlag{"--altitude", "altitude_m", "LENGTH"},
                                       SizeFlag{"--stroke", "stroke_mm", "LENGTH"}};

}  // namespace gasp
