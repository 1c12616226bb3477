// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/play_path.hpp"

#include "tests/support/catch.hpp"
#include "ui/stage/piece_map.hpp"

#include <rapidcheck.h>

using namespace gasp;

TEST_CASE("without a loop a path runs to the end and stays there", "[play_path]") {
    PlayPath path(900, 1000, std::nullopt);
    CHECK(path.next(60) == FrameSpan{900, 960});
    CHECK(path.next(60) == FrameSpan{960, 1000});
    CHECK(path.next(60) == FrameSpan{1000, 1000});
}

TEST_CASE("a start outside the sequence is taken to its nearest end", "[play_path]") {
    CHECK(PlayPath(-5, 1000, std::nullopt).frame() == 0);
    CHECK(PlayPath(5000, 1000, std::nullopt).frame() == 1000);
}

TEST_CASE("a loop returns without a frame too many or too few", "[play_path]") {
    PlayPath path(0, 10'000, FrameSpan{1000, 2000});
    std::int64_t expected = 0;
    for (int i = 0; i < 50; ++i) {
        const FrameSpan span = path.next(333);
        REQUIRE(span.begin == expected);
        REQUIRE(span.end > span.begin);
        REQUIRE(span.end <= 2000);
        expected = span.end == 2000 ? 1000 : span.end;
        REQUIRE(path.frame() == expected);
    }
}

TEST_CASE("a start past the loop begins at its beginning", "[play_path]") {
    CHECK(PlayPath(2000, 10'000, FrameSpan{1000, 2000}).frame() == 1000);
    CHECK(PlayPath(1500, 10'000, FrameSpan{1000, 2000}).frame() == 1500);
}

TEST_CASE("a loop past the sequence is cut to it, and one too short is none", "[play_path]") {
    PlayPath cut(0, 1000, FrameSpan{200, 5000});
    CHECK(cut.next(2000) == FrameSpan{0, 1000});
    CHECK(cut.frame() == 200);
    PlayPath brief(0, 1000, FrameSpan{200, 200 + PlayPath::shortest_loop - 1});
    CHECK(brief.next(2000) == FrameSpan{0, 1000});
    CHECK(brief.frame() == 1000);
}

TEST_CASE("whatever the loop, spans are within the sequence and never empty before the end", "[play_path]") {
    REQUIRE(rc::check([](int start, int begin, int end) {
        PlayPath path(start, 5000, FrameSpan{begin, end});
        for (int i = 0; i < 40; ++i) {
            const FrameSpan span = path.next(700);
            RC_ASSERT(span.begin >= 0);
            RC_ASSERT(span.end <= 5000);
            RC_ASSERT(span.end > span.begin || span.begin == 5000);
        }
    }));
}

TEST_CASE("a piece map reads one count off another", "[piece_map]") {
    PieceMap map;
    CHECK_FALSE(map.at(5));
    map.add({10, 1000, true, 1});
    map.add({20, 1010, false, 2});
    map.add({30, 500, true, 3});
    CHECK_FALSE(map.at(9));
    CHECK(map.at(15) == PieceMap::Value{1005, 1});
    CHECK(map.at(29) == PieceMap::Value{1010, 2});
    CHECK(map.at(35) == PieceMap::Value{505, 3});
    map.add({30, 900, true, 4});  // the later one counts
    CHECK(map.at(35) == PieceMap::Value{905, 4});
    map.forget_before(25);
    CHECK(map.size() == 2);
    CHECK(map.at(25) == PieceMap::Value{1010, 2});
}
