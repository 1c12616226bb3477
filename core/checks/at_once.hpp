// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/schedule/power_together.hpp"
#include "core/units/quantity.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// Supplies, fuses and wires that do for each sequence, but not for those that run at once. `runs`: of the
/// sequences of the show, or some of them; `together`: what power_together makes of them.
[[nodiscard]] std::vector<Finding> check_at_once(const Show& show, std::span<const PowerRun> runs,
                                                 const std::optional<PowerTogether>& together,
                                                 UnitSystem units);

}  // namespace gasp
