// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/heard_strokes.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>
#include <limits>

using namespace gasp;

namespace {

std::vector<Knock> knocks(std::initializer_list<double> times, double confidence = 0.6) {
    std::vector<Knock> all;
    for (const double time : times) {
        all.push_back({time, 30.0, confidence});
    }
    return all;
}

}  // namespace

TEST_CASE("knocks are taken by pairs, out and back in turn") {
    const auto strokes = pair_strokes(knocks({1.0, 1.3, 4.0, 4.9, 8.0, 8.31, 11.0, 11.92}), {250.0, 1000.0});
    REQUIRE(strokes.has_value());
    REQUIRE(strokes->size() == 4);
    CHECK((*strokes)[0].way == Coil::out);
    CHECK((*strokes)[0].ms() == Approx(300.0));
    CHECK((*strokes)[1].way == Coil::back);
    CHECK((*strokes)[1].ms() == Approx(900.0));
    CHECK((*strokes)[2].ms() == Approx(310.0));
    CHECK((*strokes)[3].click_s == 11.0);
    for (const HeardStroke& stroke : *strokes) {
        CHECK(stroke.confidence > 0.55);
    }
}

TEST_CASE("a lone knock before, between or after is passed over") {
    auto all = knocks({1.0, 1.3, 4.0, 4.9, 8.0, 8.31, 11.0, 11.92});
    for (const double stray : {0.2, 2.4, 6.5, 15.0}) {
        all.push_back({stray, 12.0, 0.2});
    }
    std::ranges::sort(all, {}, &Knock::time_s);
    const auto strokes = pair_strokes(all, {250.0, 1000.0});
    REQUIRE(strokes.has_value());
    REQUIRE(strokes->size() == 4);
    CHECK((*strokes)[1].ms() == Approx(900.0));
    CHECK((*strokes)[3].ms() == Approx(920.0));
}

TEST_CASE("a stroke whose click was not heard leaves the others their way") {
    const auto strokes = pair_strokes(knocks({1.0, 1.3, 4.9, 8.0, 8.31, 11.0, 11.92}), {300.0, 900.0});
    REQUIRE(strokes.has_value());
    REQUIRE(strokes->size() == 3);
    CHECK((*strokes)[1].way == Coil::out);
    CHECK((*strokes)[1].ms() == Approx(310.0));
    CHECK((*strokes)[2].way == Coil::back);
}

TEST_CASE("a recording may begin with the way back") {
    const auto strokes = pair_strokes(knocks({1.0, 1.9, 5.0, 5.3}), {300.0, 900.0});
    REQUIRE(strokes.has_value());
    REQUIRE(strokes->size() == 2);
    CHECK((*strokes)[0].way == Coil::back);
    CHECK((*strokes)[1].way == Coil::out);
}

TEST_CASE("where two knocks would do as well, neither is sure") {
    const auto sure = pair_strokes(knocks({1.0, 1.3}), {300.0, 900.0}).value();
    const auto torn = pair_strokes(knocks({1.0, 1.29, 1.31}), {300.0, 900.0}).value();
    CHECK(torn[0].confidence < 0.5 * sure[0].confidence);
}

TEST_CASE("strokes that cannot be told have an error with a remedy") {
    for (const double bad : {0.0, -1.0, 1e9, std::numeric_limits<double>::infinity(), std::nan("")}) {
        CHECK_FALSE(pair_strokes(knocks({1.0, 1.3}), {bad, 900.0}).has_value());
        CHECK_FALSE(pair_strokes(knocks({1.0, 1.3}), {300.0, bad}).has_value());
    }
    CHECK_FALSE(pair_strokes({}, {300.0, 900.0}).has_value());
    const auto far = pair_strokes(knocks({1.0, 9.0}), {300.0, 900.0});
    REQUIRE_FALSE(far.has_value());
    CHECK(far.error().text().find("300 ms") != std::string::npos);
    CHECK_FALSE(far.error().remedy.empty());
}

TEST_CASE("strokes never share a knock and stay in order") {
    REQUIRE(rc::check([] {
        auto times = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 60'000));
        std::ranges::sort(times);
        std::vector<Knock> all;
        for (const int time : times) {
            all.push_back({time / 1000.0, 20.0, *rc::gen::inRange(0, 100) / 100.0});
        }
        const auto strokes = pair_strokes(all, {300.0, 900.0});
        if (!strokes) {
            return;
        }
        double before = -1.0;
        for (const HeardStroke& stroke : *strokes) {
            RC_ASSERT(stroke.click_s >= before);
            RC_ASSERT(stroke.thump_s > stroke.click_s);
            RC_ASSERT(stroke.confidence >= 0.0);
            RC_ASSERT(stroke.confidence <= 1.0);
            before = stroke.thump_s;
        }
    }));
}
