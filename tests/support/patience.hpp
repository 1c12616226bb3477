// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <functional>

namespace gasp::for_tests {

/// Answers true from the n-th time it is asked, and counts.
struct Patience {
    explicit Patience(int most) : left(most) {}
    std::function<bool()> stopped() {
        return [this] {
            ++asked;
            return asked > left;
        };
    }
    int left;
    int asked = 0;
};

}  // namespace gasp::for_tests
