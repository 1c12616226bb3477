// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <algorithm>
#include <cmath>

namespace gasp {

/// Where a rising function passes 0 within 0..1 (Illinois method): it is at most 0 at 0 and at least 0 at 1.
/// Comes out on the far side, within 1e-13.
template <class F>
[[nodiscard]] double crossing(F value, double at_start, double at_end) {
    double low = 0.0;
    double high = 1.0;
    int side = 0;
    for (int tries = 0; tries < 100 && high - low > 1e-13; ++tries) {
        const double share = -at_start / (at_end - at_start);
        double middle = low + (high - low) * (share > 0.0 && share < 1.0 ? share : 0.5);
        middle = std::clamp(middle, low, high);
        const double found = value(middle);
        if (found == 0.0) {
            return middle;
        }
        if (found > 0.0) {
            high = middle;
            at_end = found;
            at_start *= side == 1 ? 0.5 : 1.0;
            side = 1;
        } else {
            low = middle;
            at_start = found;
            at_end *= side == -1 ? 0.5 : 1.0;
            side = -1;
        }
    }
    return high;
}

}  // namespace gasp
