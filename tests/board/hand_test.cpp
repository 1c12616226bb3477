// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp::board_test;

namespace {

struct Booted {
    explicit Booted(const TestImage& image) : chip(image.bytes()), link(chip) {
        chip.run_ms(SimulatedChip::boot_ms);
        chip.forget_changes();
    }
    std::uint8_t with(Ask type, Bytes token, std::optional<std::uint8_t> argument = {}) {
        if (argument) {
            token.push_back(*argument);
        }
        return link.ask(type, token).result;
    }
    bool logged(std::uint32_t kind, std::uint32_t detail) {
        const auto log = read_log(link);
        return std::ranges::any_of(
            log, [&](const Entry& entry) { return entry.kind == kind && entry.detail == detail; });
    }
    SimulatedChip chip;
    LinkClient link;
};

TestImage two_outputs() {
    TestImage image = image_of(blink(5000));
    image.outputs = {4, 4, 0};
    return image;
}

}  // namespace

TEST_CASE("Nothing moves without an arming, and by its token only") {
    Booted board(two_outputs());
    CHECK(board.with(Ask::hold, {0, 0}, 0) == 4);
    CHECK(board.with(Ask::run, {0, 0}, 0) == 4);
    Bytes token = board.link.arm();
    Bytes other = token;
    other[0] ^= 1U;
    CHECK(board.with(Ask::hold, other, 0) == 4);
    CHECK(board.with(Ask::hold, token, 2) == 13);  // no channel hangs on it
    CHECK(board.with(Ask::hold, token, 3) == 13);
    CHECK(board.with(Ask::run, token, 1) == 13);
    CHECK(board.chip.changes().empty());
    CHECK(board.with(Ask::hold, token, 1) == 0);
    CHECK(board.chip.pin(1).level);
    const Bytes newer = board.link.arm();
    CHECK(newer != token);
    CHECK_FALSE(board.chip.pin(1).level);
    CHECK(board.with(Ask::hold, token, 1) == 4);
    CHECK(board.link.ask(Ask::disarm).result == 0);
    CHECK(board.with(Ask::hold, newer, 1) == 4);
}

TEST_CASE("A held output drops by itself when its frames stop") {
    Booted board(two_outputs());
    const Bytes token = board.link.arm();
    for (int i = 0; i < 20; ++i) {
        REQUIRE(board.with(Ask::hold, token, 0) == 0);
        board.chip.run_ms(240);
        REQUIRE(board.chip.pin(0).level);
    }
    REQUIRE(board.chip.changes().size() == 1);
    REQUIRE(board.with(Ask::hold, token, 0) == 0);
    const double last = board.chip.now_us();
    board.chip.run_ms(800);
    REQUIRE(board.chip.changes().size() == 2);
    const double dropped_ms = (board.chip.changes()[1].us - last) / 1000.0;
    CHECK(dropped_ms <= 500.0);
    CHECK(dropped_ms > 450.0);
    figure("a held output drops {:.1f} ms after the last frame", dropped_ms);
    CHECK(board.logged(8, 0));
}

TEST_CASE("Other frames keep the arming alive, but hold no output") {
    Booted board(two_outputs());
    const Bytes token = board.link.arm();
    REQUIRE(board.with(Ask::hold, token, 0) == 0);
    for (int i = 0; i < 6; ++i) {
        board.chip.run_ms(900);
        REQUIRE(board.link.ask(Ask::status).u8(status::armed) == 1);
    }
    CHECK_FALSE(board.chip.pin(0).level);
    CHECK(board.with(Ask::hold, token, 1) == 0);
    CHECK(board.with(Ask::hold, token, 0) == 0);  // lets go of the first
    CHECK_FALSE(board.chip.pin(1).level);
    CHECK(board.with(Ask::hold, token, 0xFF) == 0);
    CHECK(board.chip.all_at(false));
}

TEST_CASE("When the link is lost, what was started over it rests") {
    Booted board(two_outputs());
    const Bytes token = board.link.arm();
    REQUIRE(board.with(Ask::run, token, 0) == 0);
    const double last = board.chip.now_us();
    board.chip.run_ms(1900);
    CHECK(board.chip.pin(0).level);
    board.chip.run_ms(200);
    CHECK(board.chip.all_at(false));
    CHECK((board.chip.changes().back().us - last) / 1000.0 <= 2000.0);
    const Answer status = board.link.ask(Ask::status);
    CHECK(status.u8(status::armed) == 0);
    CHECK(status.u8(status::state) == 2);
    CHECK(board.logged(5, 4));
}

TEST_CASE("A run over the link plays the table, once even if it was asked for twice") {
    TestImage image = image_of(blink(100));
    image.sequences[0].lockout = 60'000;
    Booted board(image);
    const Bytes token = board.link.arm();
    REQUIRE(board.with(Ask::run, token, 0) == 0);
    CHECK(board.link.ask_again().result == 0);
    const Answer running = board.link.ask(Ask::status);
    CHECK(running.u8(status::state) == 5);
    CHECK(running.u8(status::sequence) == 0);
    CHECK(running.u32(status::driven) == 1);
    const double by_ticks = running.u32(status::tick) * 1000.0;
    const double by_clock = running.u32(status::now) - running.u32(status::begun);
    CHECK(by_clock - by_ticks >= 0.0);
    CHECK(by_clock - by_ticks < 1100.0);
    board.chip.run_ms(300);
    CHECK(board.chip.changes().size() == 2);
    REQUIRE(board.with(Ask::run, token, 0) == 0);  // lockout is for triggers
    CHECK(board.logged(7, 0));
}

TEST_CASE("While armed, triggers and idle sequences wait") {
    TestImage image = two_outputs();
    image.sequences.push_back(blink(10, Kind::idle));
    image.sequences[1].events[0].output = image.sequences[1].events[1].output = 1;
    Booted board(image);
    (void)board.link.arm();
    board.chip.run_ms(20);
    board.chip.forget_changes();
    board.chip.trip();
    board.chip.run_ms(300);
    CHECK(board.chip.changes().empty());
    CHECK(board.logged(3, 17));
    board.link.ask(Ask::disarm);
    board.chip.run_ms(300);
    CHECK_FALSE(board.chip.changes().empty());
}

TEST_CASE("Stop needs no arming and holds until go on, or re-arm at the prop") {
    TestImage image = two_outputs();
    image.sequences.push_back(blink(10, Kind::idle));
    Booted board(image);
    for (const bool over_link : {true, false}) {
        board.chip.trip();
        board.chip.run_ms(20);
        REQUIRE(board.chip.pin(0).level);
        CHECK(board.link.ask(Ask::arm).result == 5);
        CHECK(board.link.ask(Ask::stop).result == 0);
        CHECK(board.chip.all_at(false));
        board.chip.forget_changes();
        board.chip.trip();
        board.chip.run_ms(300);
        CHECK(board.chip.changes().empty());
        CHECK(board.link.ask(Ask::status).u8(status::state) == 8);
        const Bytes token = board.link.arm();
        CHECK(board.with(Ask::hold, token, 0) == 9);
        if (over_link) {
            CHECK(board.with(Ask::go_on, token) == 0);
            CHECK(board.logged(6, 2));
            board.link.ask(Ask::disarm);
        } else {
            board.link.ask(Ask::disarm);
            board.chip.run_ms(20);
            board.chip.set(Input::rearm, true);
            board.chip.run_ms(20);
            board.chip.set(Input::rearm, false);
        }
        board.chip.run_ms(100);
        CHECK_FALSE(board.chip.changes().empty());  // the idle sequence
    }
}

TEST_CASE("Over the link nothing gets past an open output-enable input") {
    Booted board(two_outputs());
    const Bytes token = board.link.arm();
    REQUIRE(board.with(Ask::hold, token, 0) == 0);
    board.chip.set(Input::enable, false);
    board.chip.run_ms(1);
    CHECK(board.chip.all_at(false));
    CHECK(board.with(Ask::hold, token, 0) == 4);
    CHECK(board.link.ask(Ask::arm).result == 7);
    board.chip.set(Input::enable, true);
    board.chip.run_ms(10);
    CHECK(board.link.ask(Ask::arm).result == 8);
    CHECK(board.with(Ask::go_on, token) == 4);
}
