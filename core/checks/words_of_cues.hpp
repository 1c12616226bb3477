// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"
#include "core/checks/cue_fault.hpp"
#include "core/checks/wording.hpp"

#include <string_view>
#include <vector>

namespace gasp {

// From a cue fault to its finding: each check of cues words its own kinds.

Finding word_overlap(const Show& show, const Sequence& sequence, const CueFault& fault);
Finding word_valve_dwell(const Show& show, const Sequence& sequence, const CueFault& fault);
Finding word_channel_dwell(const Show& show, const Sequence& sequence, const CueFault& fault);
Finding word_exclusive(const Show& show, const Sequence& sequence, const CueFault& fault);

/// A finding with the fault's place.
[[nodiscard]] Finding about(const Sequence& sequence, const CueFault& fault, std::string_view check,
                            Severity severity);

/// Says what is too short about a dwell, its figure, limit and remedy. `subject` is "valve \"Keeper\"".
void word_short_dwell(const Sequence& sequence, const CueFault& fault, std::string_view subject, bool powered,
                      Finding& finding);

/// The findings of those faults of the input whose kind is wanted.
template <class Wanted>
[[nodiscard]] std::vector<Finding> worded(const CheckInput& input, Wanted wanted) {
    std::vector<Finding> findings;
    for (const CueFault& fault : input.cue_faults) {
        if (wanted(fault.kind)) {
            findings.push_back(worded(input.show, input.sequence, fault));
        }
    }
    return findings;
}

}  // namespace gasp
