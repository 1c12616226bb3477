// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/model/blank_field.hpp"
#include "core/show/rig.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// What a stroke does to the frame it stands on, about the edge it would tip over.
struct BaseLoad {
    double moment_nm = 0.0;   ///< that tips it
    double holding_nm = 0.0;  ///< its weight about the same edge, as if all of it stood over the middle
    double anchor_n = 0.0;    ///< that a bolt at the far edge must hold; 0 where the weight suffices
    double ballast_kg = 0.0;  ///< over the middle that would do instead
};

/// The peak force along the strike tips the frame by its level part at the strike's height and by its upright
/// part at half the footprint. A linkage may push any way: all of it counts as level. What moves is not
/// counted as weight that holds. A figure for choosing; whoever signs off the anchoring goes by
/// the local code. Error: names the blank field.
[[nodiscard]] Result<BaseLoad> base_load(const Actuator& actuator, double peak_force_n);

/// The blank fields that base_load needs.
[[nodiscard]] std::vector<BlankField> blanks_of_base(const Actuator& actuator);

}  // namespace gasp
