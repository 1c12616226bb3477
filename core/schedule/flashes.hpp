// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/cue_spans.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace gasp {

/// Calls `take` with each flash of a cue that ends after 0 and begins before `until`, at most `most` of them.
/// The k-th begins at k periods from the start, in one multiplication, so that no error adds up; the last is
/// cut where the cue ends. Requires: rate above 0.
template <class Take>
void for_each_flash(const FlashingCue& cue, Micros until, std::size_t most, Take take) {
    const double period = 1e6 / cue.flashes.rate_hz;
    const double duty = cue.flashes.duty_percent / 100.0;
    const Micros end_of_cue = cue.start + cue.length;
    const double skipped = std::floor(static_cast<double>(-cue.start.count()) / period) - 1.0;
    double k = std::max(skipped, 0.0);
    for (std::size_t made = 0; made < most; ++made, k += 1.0) {
        const Micros begin = cue.start + Micros{std::llround(k * period)};
        if (begin >= end_of_cue || begin >= until) {
            return;
        }
        const Micros end = std::min(cue.start + Micros{std::llround((k + duty) * period)}, end_of_cue);
        if (end > Micros{0}) {
            take(Dwell{begin, end});
        }
    }
}

}  // namespace gasp
