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

std::vector<Grid> all_grids() {
    std::vector<Grid> grids{Grid{}};
    for (const FrameRate rate : {FrameRate::fps_24, FrameRate::fps_25, FrameRate::fps_2997_drop,
                                 FrameRate::fps_2997, FrameRate::fps_30}) {
        grids.emplace_back().kind = Grid::Kind::frames;
        grids.back().rate = rate;
    }
    for (const int beats_a_bar : {1, 3, 4}) {
        grids.emplace_back().kind = Grid::Kind::beats;
        grids.back().beats_a_minute = 91.7;
        grids.back().beats_a_bar = beats_a_bar;
        grids.back().first_beat = Micros{733'000};
    }
    return grids;
}

}  // namespace

TEST_CASE("every step of a ladder is coarser than the one before and divided evenly") {
    for (const Grid& grid : all_grids()) {
        std::optional<TickScale> before;
        for (const TickScale& scale : tick_ladder(grid)) {
            CAPTURE(static_cast<int>(grid.kind), static_cast<int>(grid.rate), scale.labelled);
            CHECK(scale.labelled % scale.plain == 0);
            CHECK(scale.labelled / scale.plain <= 16);
            if (before) {
                CHECK(scale.labelled >= before->labelled);
                CHECK(scale.plain >= before->plain);
                CHECK(scale.decimals <= before->decimals);
            }
            before = scale;
        }
    }
}

TEST_CASE("labels tell neighbouring ticks apart at every step") {
    for (const Grid& grid : all_grids()) {
        for (const TickScale& scale : tick_ladder(grid)) {
            for (const std::int64_t from : {std::int64_t{0}, std::int64_t{7'200'000'000}}) {
                const std::int64_t one = from - from % scale.labelled + scale.labelled;
                CHECK(tick_label(grid, scale, one) != tick_label(grid, scale, one + scale.labelled));
                INFO(tick_label(grid, scale, one));
                // The label is exact: read back, it is the tick's own time. No sequence is longer than a day.
                if (grid.kind == Grid::Kind::seconds && Micros{one} <= std::chrono::hours{24}) {
                    CHECK(parse_time(tick_label(grid, scale, one)).value_or(Micros{-1}) == Micros{one});
                }
            }
        }
    }
}

TEST_CASE("labels never overlap and ticks never crowd, at any scale and place") {
    REQUIRE(rc::check([] {
        const std::vector<Grid> grids = all_grids();
        const Grid grid = grids[*rc::gen::inRange<std::size_t>(0, grids.size())];
        const double us_per_px = std::pow(10.0, *rc::gen::inRange(300, 8000) / 1000.0);
        const auto left = Micros{*rc::gen::inRange<std::int64_t>(-5'000'000, 80'000'000'000)};
        const auto right = left + Micros{static_cast<std::int64_t>(us_per_px * 3840)};
        const TickScale scale = tick_scale(grid, us_per_px, left, right, 12, label_px);
        const std::vector<Tick> all = ticks(grid, scale, left, right);
        double free_from = -1e300;
        Micros last = left - Micros{1};
        for (const Tick& tick : all) {
            RC_ASSERT(tick.time > last);
            RC_ASSERT(tick.time <= right);
            RC_ASSERT(tick.unit % scale.plain == 0);
            RC_ASSERT(tick.labelled == (tick.unit % scale.labelled == 0));
            last = tick.time;
            const double x = static_cast<double>((tick.time - left).count()) / us_per_px;
            if (tick.labelled) {
                RC_ASSERT(x >= free_from);
                free_from = x + label_px(tick_label(grid, scale, tick.unit)) + 11;
            }
        }
        RC_ASSERT(all.size() <= 3840 / 4 + 4);
        RC_ASSERT(all.size() >= 2 || grid.kind != Grid::Kind::seconds);
    }));
}

TEST_CASE("ticks lie on both sides of zero and beyond 32 bits") {
    const Grid grid;
    const TickScale second{1'000'000, 200'000, 0};
    const std::vector<Tick> around = ticks(grid, second, Micros{-1'100'000}, Micros{400'000});
    REQUIRE(around.front() == Tick{Micros{-1'000'000}, -1'000'000, true});
    REQUIRE(around.back() == Tick{Micros{400'000}, 400'000, false});
    REQUIRE(around.size() == 8);
    const Micros far{std::int64_t{1} << 45};
    for (const Tick& tick : ticks(grid, second, far, far + Micros{2'000'000})) {
        REQUIRE(tick.unit % second.plain == 0);
        REQUIRE(tick.time >= far);
    }
    REQUIRE(ticks(grid, second, Micros{1}, Micros{199'999}).empty());
}

TEST_CASE("frames are ticked where they begin and written as a time code") {
    Grid grid;
    grid.kind = Grid::Kind::frames;
    grid.rate = FrameRate::fps_25;
    const TickScale fives{5, 1, 0};
    const std::vector<Tick> all = ticks(grid, fives, Micros{0}, Micros{400'000});
    REQUIRE(all.size() == 11);
    CHECK(all[7] == Tick{Micros{280'000}, 7, false});
    CHECK(tick_label(grid, fives, 187 - 2) == "0:07:10");
    // Across a minute of a drop count no tick is there twice, and the one at the minute has the first number
    // that there is (SMPTE ST 12-1, from memory).
    grid.rate = FrameRate::fps_2997_drop;
    const std::vector<Tick> minute = ticks(grid, {1, 1, 0}, Micros{59'990'000}, Micros{60'200'000});
    REQUIRE(minute.size() > 4);
    std::vector<std::string> labels;
    for (const Tick& tick : minute) {
        labels.push_back(tick_label(grid, {1, 1, 0}, tick.unit));
    }
    CHECK(labels[0] == "0:59;28");
    CHECK(labels[1] == "0:59;29");
    CHECK(labels[2] == "1:00;02");
    CHECK(labels[3] == "1:00;03");
}

TEST_CASE("beats are counted from the first, in bars") {
    Grid grid;
    grid.kind = Grid::Kind::beats;
    grid.beats_a_minute = 90.0;
    grid.beats_a_bar = 3;
    grid.first_beat = Micros{500'000};
    const TickScale beats{16, 16, 0};
    const std::vector<Tick> all = ticks(grid, beats, Micros{0}, Micros{3'000'000});
    REQUIRE(all.size() == 4);
    CHECK(all[0] == Tick{Micros{500'000}, 0, true});
    CHECK(all[1].time == Micros{1'166'667});
    CHECK(tick_label(grid, beats, all[0].unit) == "1.1");
    CHECK(tick_label(grid, beats, all[3].unit) == "2.1");
    CHECK(tick_label(grid, beats, -16) == "0.3");
    CHECK(tick_label(grid, {48, 16, 0}, all[3].unit) == "2");
    CHECK(grid_beside(grid, {}, Micros{1'000'000}) == std::vector{Micros{500'000}, Micros{1'166'667}});
    CHECK(grid_beside(grid, {16, 4, 0}, Micros{1'000'000}) ==
          std::vector{Micros{1'000'000}, Micros{1'166'667}});
    CHECK(grid_beside(Grid{}, {}, Micros{1'000'000}).empty());
}
