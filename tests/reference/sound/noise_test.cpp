// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
//
// Noise limits against the published tables: 29 CFR 1910.95 (the table of 41 CFR 50-204.10 is the same), its
// appendix A, and the times of NIOSH publication 98-126.
#include "core/sound/ear_level.hpp"
#include "tests/support/catch.hpp"

#include <array>
#include <utility>

using namespace gasp;

TEST_CASE("OSHA's permissible times are those of table G-16, which rounds them, and of G-16a") {
    constexpr std::array<std::pair<double, double>, 9> g16{
        {{90, 8}, {92, 6}, {95, 4}, {97, 3}, {100, 2}, {102, 1.5}, {105, 1}, {110, 0.5}, {115, 0.25}}};
    for (const auto& [level, hours] : g16) {
        CHECK(allowed_hours(NoiseLimit::osha, level) == Approx(hours).epsilon(0.02));
    }
    constexpr std::array<std::pair<double, double>, 7> g16a{
        {{80, 32}, {81, 27.9}, {82, 24.3}, {83, 21.1}, {84, 18.4}, {85, 16}, {86, 13.9}}};
    for (const auto& [level, hours] : g16a) {
        CHECK(allowed_hours(NoiseLimit::osha, level) == Approx(hours).margin(0.05));
    }
    CHECK(noise_dose(NoiseLimit::osha, 92.0, 8.0) == Approx(1.32).epsilon(0.005));
}

TEST_CASE("NIOSH's recommended times are those of its table") {
    constexpr std::array<std::pair<double, double>, 10> table{{{85, 8 * 3600},
                                                               {88, 4 * 3600},
                                                               {91, 2 * 3600},
                                                               {94, 3600},
                                                               {97, 30 * 60},
                                                               {100, 15 * 60},
                                                               {90, 2 * 3600 + 31 * 60},
                                                               {103, 7 * 60 + 30},
                                                               {106, 3 * 60 + 45},
                                                               {115, 28}}};
    for (const auto& [level, seconds] : table) {
        CHECK(allowed_hours(NoiseLimit::niosh, level) * 3600.0 == Approx(seconds).epsilon(0.005));
    }
}

TEST_CASE("a loudspeaker's level follows the inverse square law") {
    // Common practice, no source: 6.02 dB less at twice the distance, 3.01 dB more at twice the power.
    CHECK(level_from(90.0, 1.0, 1.0) == Approx(90.0));
    CHECK(level_from(90.0, 2.0, 1.0) == Approx(93.01).margin(0.01));
    CHECK(level_from(90.0, 1.0, 2.0) == Approx(83.98).margin(0.01));
    Speaker speaker;
    CHECK_FALSE(level_at_ear(speaker, -10.0));
    speaker.power_w = 10.0;
    speaker.sensitivity_db = 87.0;
    speaker.distance_m = 2.5;
    CHECK(*level_at_ear(speaker, -20.0) == Approx(87.0 + 10.0 - 7.96 - 20.0).margin(0.01));
}
