// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/player_lag.hpp"

#include "core/sound/knocks.hpp"
#include "tests/core/sound/impacts.hpp"
#include "tests/core/sound/sound_files.hpp"
#include "tests/support/catch.hpp"

#include <sndfile.h>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

std::vector<Knock> knocks_at(const std::vector<double>& times) {
    std::vector<Knock> knocks;
    for (const double time : times) {
        knocks.push_back({time, 20.0, 0.9});
    }
    return knocks;
}

}  // namespace

TEST_CASE("the lag is from each click to the first sound, the middle one of several") {
    const auto heard = lag_of(knocks_at({1.0, 1.130, 1.5, 5.0, 5.110, 9.0, 9.150}), 0ms);
    REQUIRE(heard);
    CHECK(heard->each_ms.size() == 3);
    CHECK(heard->lag_ms == Approx(130.0));
    CHECK(heard->spread_ms == Approx(40.0));
    CHECK(lag_of(knocks_at({1.0, 1.130}), 50ms)->lag_ms == Approx(80.0));
}

TEST_CASE("a recording without a click and its sound has no lag") {
    CHECK_FALSE(lag_of(knocks_at({}), 0ms));
    CHECK_FALSE(lag_of(knocks_at({1.0, 4.0, 8.0}), 0ms));
    CHECK_FALSE(lag_of(knocks_at({1.0, 1.130}), 200ms));
}

TEST_CASE("the lag is heard in a recording to within 2 ms") {
    const test::Folder folder;
    test::Recording take(12.0, 48000, 5);
    take.add_pink(0.001);
    for (const double at : {1.0132, 4.5071, 8.2503}) {
        take.strike(test::click(), at, 0.1);
        take.strike(test::thump(), at + 0.1834, 0.4);
    }
    test::write_sound(folder / "take.wav", SF_FORMAT_WAV | SF_FORMAT_PCM_16, 48000, 1, take.samples());
    const auto heard = lag_in(folder / "take.wav", 0ms);
    REQUIRE(heard);
    CHECK(heard->each_ms.size() == 3);
    CHECK(heard->lag_ms == Approx(183.4).margin(2.0));
    const auto none = lag_in(folder / "none.wav", 0ms);
    REQUIRE_FALSE(none);
    CHECK(none.error().where.find("none.wav") != std::string::npos);
}
