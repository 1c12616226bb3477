// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/ticks.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <cmath>

using namespace gasp;

namespace {

double label_px(const std::string& text) {
    return 7.0 * static_cast<double>(text.size());
}

}  // namespace

TEST_CASE("every step of the ladder is coarser than the one before and divided evenly") {
    const TickScale* before = nullptr;
    for (const TickScale& scale : tick_ladder()) {
        CHECK(scale.labelled % scale.plain == Micros{0});
        CHECK(scale.labelled / scale.plain <= 6);
        if (before != nullptr) {
            CHECK(scale.labelled > before->labelled);
            CHECK(scale.plain >= before->plain);
            CHECK(scale.decimals <= before->decimals);
        }
        before = &scale;
    }
}

TEST_CASE("labels tell neighbouring ticks apart at every step") {
    for (const TickScale& scale : tick_ladder()) {
        for (const Micros from : {Micros{0}, Micros{7'200'000'000}}) {
            const Micros one = from - from % scale.labelled + scale.labelled;
            CHECK(tick_label(scale, one) != tick_label(scale, one + scale.labelled));
            INFO(tick_label(scale, one));
            // The label is exact: read back, it is the tick's own time. No sequence is longer than a day.
            if (one <= std::chrono::hours{24}) {
                CHECK(parse_time(tick_label(scale, one)).value_or(Micros{-1}) == one);
            }
        }
    }
}

TEST_CASE("labels never overlap and ticks never crowd, at any scale and place") {
    REQUIRE(rc::check([] {
        const double us_per_px = std::pow(10.0, *rc::gen::inRange(1300, 8000) / 1000.0);
        const auto left = Micros{*rc::gen::inRange<std::int64_t>(-5'000'000, 80'000'000'000)};
        const auto right = left + Micros{static_cast<std::int64_t>(us_per_px * 3840)};
        const TickScale scale = tick_scale(us_per_px, left, right, 12, label_px);
        const std::vector<Tick> all = ticks(scale, left, right);
        double free_from = -1e300;
        Micros last = left - Micros{1};
        for (const Tick& tick : all) {
            RC_ASSERT(tick.time > last);
            RC_ASSERT(tick.time <= right);
            RC_ASSERT(tick.time % scale.plain == Micros{0});
            RC_ASSERT(tick.labelled == (tick.time % scale.labelled == Micros{0}));
            last = tick.time;
            const double x = static_cast<double>((tick.time - left).count()) / us_per_px;
            if (tick.labelled) {
                RC_ASSERT(x >= free_from);
                free_from = x + label_px(tick_label(scale, tick.time)) + 12;
            }
        }
        RC_ASSERT(all.size() <= 3840 / 4 + 2);
        RC_ASSERT(all.size() >= 2);
    }));
}

TEST_CASE("ticks lie on both sides of zero and beyond 32 bits") {
    const TickScale second{Micros{1'000'000}, Micros{200'000}, 0};
    const std::vector<Tick> around = ticks(second, Micros{-1'100'000}, Micros{400'000});
    REQUIRE(around.front() == Tick{Micros{-1'000'000}, true});
    REQUIRE(around.back() == Tick{Micros{400'000}, false});
    REQUIRE(around.size() == 8);
    const Micros far{std::int64_t{1} << 45};
    for (const Tick& tick : ticks(second, far, far + Micros{2'000'000})) {
        REQUIRE(tick.time % second.plain == Micros{0});
        REQUIRE(tick.time >= far);
    }
    REQUIRE(ticks(second, Micros{1}, Micros{199'999}).empty());
}
