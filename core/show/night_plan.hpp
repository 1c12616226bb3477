// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"

#include <string>
#include <vector>

namespace gasp {

/// What is expected of an evening, for the forecast. Groups come at random at a rate (constant, or by the
/// hour) or, where there is a list of arrivals, exactly then.
struct NightPlan {
    Figure hours;                        ///< the doors are open
    Figure groups_per_h;                 ///< where no hour has its own
    Figure weak_ms;                      ///< a strike later than its usual moment by more is a weak one
    Figure runs;                         ///< nights that are tried
    Figure seed;                         ///< a whole number: the same one gives the same nights
    std::vector<double> groups_by_hour;  ///< of the first hour, the second...
    std::vector<double> arrivals_s;      ///< after the doors open, rising
    std::string extra;
    bool operator==(const NightPlan&) const = default;
};

}  // namespace gasp
