// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/timecode.hpp"

#include "tests/support/catch.hpp"

using namespace gasp;
using namespace std::chrono_literals;

namespace {

constexpr FrameRate all_rates[] = {FrameRate::fps_24, FrameRate::fps_25, FrameRate::fps_2997_drop,
                                   FrameRate::fps_2997, FrameRate::fps_30};

}  // namespace

TEST_CASE("an hour by the clock is an hour of a drop count and 3.6 s short of one without") {
    // "Timecode and frame rates", blog.frame.io, 2017: an hour of 29.97 is 107 892 frames; counted without
    // drop it is 108 frames short of one.
    constexpr std::int64_t frames = 107'892;
    CHECK(time_of_number(FrameRate::fps_2997, frames) == Micros{3'599'996'400});
    CHECK(time_of_number(FrameRate::fps_2997_drop, 108'000) == Micros{3'599'996'400});
    CHECK(print_timecode(FrameRate::fps_2997_drop, 108'000) == "1:00:00;00");
    CHECK(print_timecode(FrameRate::fps_2997, frames) == "59:56:12");
    CHECK(time_of_number(FrameRate::fps_30, 108'000) == 1h);
    CHECK(time_of_number(FrameRate::fps_2997, 108'000) == 1h + Micros{3'600'000});
}

TEST_CASE("a drop count leaves out two numbers at every minute but each tenth") {
    // SMPTE ST 12-1, from memory: 0:59;29 is followed by 1:00;02, 9:59;29 by 10:00;00.
    constexpr FrameRate drop = FrameRate::fps_2997_drop;
    const auto after = [](std::int64_t number) {
        return print_timecode(drop, number_at(drop, time_of_number(drop, number) + Micros{33'367}));
    };
    CHECK(after(1799) == "1:00;02");
    CHECK(after(9 * 1800 + 1799) == "10:00;00");
    // Ten minutes have 17 982 frames.
    CHECK(time_of_number(drop, 18'000) == time_of_number(FrameRate::fps_2997, 17'982));
    // What is left out stands for what follows.
    CHECK(time_of_number(drop, 1800) == time_of_number(drop, 1802));
    CHECK(time_of_number(drop, 1801) == time_of_number(drop, 1802));
}

TEST_CASE("every frame is found again at its own time, on both sides of zero") {
    for (const FrameRate rate : all_rates) {
        Micros before = time_of_number(rate, -40'001);
        for (std::int64_t number = -40'000; number < 40'000; ++number) {
            const Micros time = time_of_number(rate, number);
            CAPTURE(static_cast<int>(rate), number);
            REQUIRE(time >= before);
            if (time_of_number(rate, number + 1) != time) {
                REQUIRE(number_at(rate, time) == number);
                REQUIRE(number_at(rate, time_of_number(rate, number + 1) - Micros{2}) == number);
            }
            before = time;
        }
    }
}

TEST_CASE("frames begin where their rate says, to the microsecond") {
    // 1001/30 ms and 1/24 s, worked out by hand.
    CHECK(time_of_number(FrameRate::fps_2997, 1) == Micros{33'367});
    CHECK(time_of_number(FrameRate::fps_24, 1) == Micros{41'667});
    CHECK(time_of_number(FrameRate::fps_25, 7) == 280ms);
    CHECK(print_timecode(FrameRate::fps_25, 187) == "0:07:12");
    CHECK(print_timecode(FrameRate::fps_24, -25) == "-0:01:01");
}
