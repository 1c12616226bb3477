// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_power.hpp"

#include <optional>

namespace gasp {

/// What a sequence asks of a supply, against what the supply may give. Amperes.
struct SupplyUse {
    bool complete = true;  ///< everything on it is known; else the sums are the least they can be
    double peak_a = 0.0;   ///< surges and all
    Micros peak_at{0};
    double steady_peak_a = 0.0;  ///< surges left out
    Micros steady_peak_at{0};
    double average_a = 0.0;       ///< over the sequence
    double rms_a = 0.0;           ///< over the sequence
    Micros period{0};             ///< so soon it may begin again
    double repeated_rms_a = 0.0;  ///< over that time: what heats the supply
    Figure planned_a;             ///< the share of its rating to plan with
    Figure margin_percent;        ///< of its rating, left at the steady peak; below 0 where it is too small
    Figure fuse_a;    ///< the smallest standard fuse for it that the wires all share bear; none: no such
    Figure needed_a;  ///< the rating it needs; none where a current is not known
};

/// `power`: of this sequence; `supply`: a place in the rig.
[[nodiscard]] SupplyUse supply_use(const Show& show, const Sequence& sequence, const SequencePower& power,
                                   std::size_t supply);

}  // namespace gasp
