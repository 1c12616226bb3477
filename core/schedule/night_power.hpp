// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_power.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The busiest night its plan allows: every group that comes trips what it can, but none sooner than the
/// lockout lets it; idle sequences go round in the time that is left.
struct NightUse {
    Micros length{0};
    std::vector<double> runs;  ///< of each sequence, in the order of the show
};

/// None where the hours or the groups of the night are blank.
[[nodiscard]] std::optional<NightUse> night_use(const Show& show);

/// Over such a night. Where sequences run at once their currents count one after the other: the average
/// holds, the RMS is then a little more than this.
struct NightPower {
    std::vector<double> average_a;  ///< of each supply
    std::vector<double> rms_a;
    std::vector<double> operations;  ///< of each channel
};

/// `powers`: of each sequence, in the order of the show.
[[nodiscard]] NightPower night_power(const Show& show, const NightUse& night,
                                     std::span<const SequencePower* const> powers);

}  // namespace gasp
