// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/schedule/power_together.hpp"

#include <span>
#include <vector>

namespace gasp {

/// Supplies that are large enough for each sequence, but not for those that can run at once. `runs`: of the
/// sequences of the show, or some of them.
[[nodiscard]] std::vector<Finding> check_supply_together(const Show& show, std::span<const RunPeaks> runs);

}  // namespace gasp
