// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/play_clock.hpp"

#include "tests/support/catch.hpp"

#include <random>

using namespace gasp;
using namespace std::chrono_literals;

TEST_CASE("the clock stands until the device moves", "[play_clock]") {
    PlayClock clock;
    CHECK(clock.at(5s) == 0us);
    clock.reading(10s, 0us);
    CHECK(clock.at(10s + 20ms) == 0us);
    clock.reading(10s + 25ms, 4ms);
    CHECK(clock.at(10s + 25ms) == 4ms);
    CHECK(clock.at(10s + 30ms) == 9ms);
}

TEST_CASE("readings that repeat and step by 10 ms give a smooth clock within tolerance", "[play_clock]") {
    // As measured on Qt 6.4 with PulseAudio: readings step by up to 10 ms, are late by up to 10 ms and
    // repeat.
    PlayClock clock;
    std::mt19937 random(7);
    std::uniform_int_distribution<int> jitter(0, 3000);
    Micros before{0};
    double worst_us = 0.0;
    Micros largest_step{0};
    for (int tick = 0; tick < 12'000; ++tick) {
        const Micros now = Micros{1'000'000'000} + Micros{tick * 5000} + Micros{jitter(random)};
        const Micros truth = now - Micros{1'000'000'000};
        clock.reading(now, Micros{truth.count() / 10'000 * 10'000});
        const Micros shown = clock.at(now);
        REQUIRE(shown >= before);
        if (tick > 200) {
            // The readings themselves are 0..10 ms late, 5 ms on the mean.
            worst_us = std::max(worst_us, std::abs(static_cast<double>((shown - truth).count()) + 2'500.0));
            largest_step = std::max(largest_step, shown - before);
        }
        before = shown;
    }
    CHECK(worst_us < 4'000.0);
    CHECK(largest_step < 10ms);
}

TEST_CASE("a device that stops moving stops the clock", "[play_clock]") {
    PlayClock clock;
    clock.reading(1s, 0us);
    clock.reading(1s + 100ms, 100ms);
    CHECK(clock.at(1s + 150ms) == 150ms);
    CHECK(clock.at(9s) == 200ms);
    CHECK(clock.at(10s) == 200ms);
    clock.reading(10s, 110ms);
    CHECK(clock.at(10s) == 200ms);  // never back
    clock.reading(10s + 100ms, 210ms);
    CHECK(clock.at(10s + 100ms) == 210ms);
}

TEST_CASE("a device begun anew goes on from where the clock stood", "[play_clock]") {
    PlayClock clock;
    clock.reading(1s, 0us);
    clock.reading(1s + 50ms, 50ms);
    REQUIRE(clock.at(1s + 60ms) == 60ms);
    clock.restart();
    clock.reading(2s, 55ms);
    CHECK(clock.at(2s + 30ms) == 60ms);
    clock.reading(2s + 40ms, 90ms);
    CHECK(clock.at(2s + 40ms) == 90ms);
}

TEST_CASE("a clock of another pace is followed", "[play_clock]") {
    PlayClock clock;
    Micros last{0};
    for (int tick = 0; tick <= 4000; ++tick) {
        const Micros now{tick * 5000};
        clock.reading(now, Micros{tick * 5005});  // 0.1 % fast
        last = clock.at(now);
    }
    CHECK(std::abs((last - Micros{4000 * 5005}).count()) < 1000);
}
