// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Flashes as WCAG 2.2 counts them (success criterion 2.3.1; terms "general flash and red flash thresholds"):
// a flash is a pair of opposing changes, and no more than three may come in any one-second period.
#include "core/checks/flash_count.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <cmath>

using namespace gasp;

namespace {

/// A square wave from dark to light, half of the time lit, for 10 s.
std::vector<LightChange> strobe(double hertz, double first_s = 0.0, std::uint32_t lamp = 0) {
    std::vector<LightChange> changes;
    for (int i = 0; i < static_cast<int>(10.0 * hertz); ++i) {
        changes.push_back({Micros{std::llround((first_s + i / hertz) * 1e6)}, lamp, true});
        changes.push_back({Micros{std::llround((first_s + (i + 0.5) / hertz) * 1e6)}, lamp, false});
    }
    return changes;
}

std::vector<LightChange> together(std::vector<LightChange> a, const std::vector<LightChange>& b) {
    a.insert(a.end(), b.begin(), b.end());
    std::ranges::stable_sort(a, {}, &LightChange::time);
    return a;
}

}  // namespace

TEST_CASE("a black and white strobe of the whole view: 3 Hz passes, 4 Hz fails") {
    CHECK(flash_bursts(strobe(1.0)).empty());
    CHECK(flash_bursts(strobe(3.0)).empty());
    REQUIRE(flash_bursts(strobe(4.0)).size() == 1);
    CHECK(flash_bursts(strobe(4.0))[0].flashes == 4);
    CHECK(flash_bursts(strobe(10.0))[0].flashes == 10);
}

TEST_CASE("three flashes pass wherever they stand, a fourth within the second fails") {
    std::vector<LightChange> changes;
    for (int i = 0; i < 3; ++i) {
        changes.push_back({Micros{i * 100'000}, 0, true});
        changes.push_back({Micros{i * 100'000 + 50'000}, 0, false});
    }
    CHECK(flash_bursts(changes).empty());
    std::vector<LightChange> later = changes;
    later.push_back({Micros{1'100'000}, 0, true});
    later.push_back({Micros{1'150'000}, 0, false});
    CHECK(flash_bursts(later).empty());
    changes.push_back({Micros{900'000}, 0, true});
    CHECK(flash_bursts(changes).empty());  // half a flash is none
    changes.push_back({Micros{950'000}, 0, false});
    CHECK(flash_bursts(changes).size() == 1);
}

TEST_CASE("lamps in view together count together") {
    // Several devices in one view: oshacademy.com, course 718, gives 5 a second for alarms; the least of the
    // limits, WCAG's 3, is what is held here.
    CHECK(flash_bursts(together(strobe(2.0), strobe(2.0, 0.0, 1))).empty());
    CHECK(flash_bursts(together(strobe(2.0), strobe(2.0, 0.25, 1))).size() == 1);
}
