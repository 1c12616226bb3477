// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp::board_test;

namespace {

/// How often output 0 was driven since its changes were last forgotten.
auto runs(const SimulatedChip& chip) {
    return std::ranges::count_if(chip.changes(),
                                 [](const PinChange& change) { return change.output == 0 && change.level; });
}

struct Booted {
    explicit Booted(const TestImage& image) : chip(image.bytes()), link(chip) {
        chip.run_ms(SimulatedChip::boot_ms);
        chip.forget_changes();
    }
    SimulatedChip chip;
    LinkClient link;
};

std::uint32_t last_detail(LinkClient& link, std::uint32_t kind) {
    std::uint32_t detail = 1000;
    for (const Entry& entry : read_log(link)) {
        detail = entry.kind == kind ? entry.detail : detail;
    }
    return detail;
}

constexpr std::uint32_t accepted = 2;
constexpr std::uint32_t refused = 3;

}  // namespace

TEST_CASE("A trigger shorter than the debounce starts nothing, one that bounces starts one run") {
    TestImage image = image_of(blink(50));
    image.debounce = 10;
    Booted board(image);
    board.chip.trip(9'900.0);
    board.chip.run_ms(200);
    CHECK(runs(board.chip) == 0);
    for (int bounce = 0; bounce < 5; ++bounce) {  // within the first tick
        board.chip.trip(80.0);
        board.chip.run(80.0);
    }
    board.chip.trip(30'000.0);
    board.chip.run_ms(300);
    CHECK(runs(board.chip) == 1);
    const Answer status = board.link.ask(Ask::status);
    CHECK(status.u32(status::triggers) == 1);
    CHECK(status.u32(status::refusals) == 0);
}

TEST_CASE("A trigger that stays tripped starts one run") {
    Booted board(image_of(blink(20)));
    board.chip.set(Input::trigger, true);
    board.chip.run_ms(2000);
    CHECK(runs(board.chip) == 1);
}

TEST_CASE("A trigger input that chatters without end stops neither the clock nor a run") {
    Booted board(image_of(blink(500)));
    board.chip.trip();
    const double begun = board.chip.changes().front().us;
    for (int i = 0; i < 4000; ++i) {
        board.chip.set(Input::trigger, i % 2 == 0);
        board.chip.run(150.0);
    }
    board.chip.set(Input::trigger, false);
    REQUIRE(board.chip.changes().size() == 2);
    CHECK(board.chip.changes()[1].us - begun == Approx(500'000.0).margin(100.0));
}

TEST_CASE("Triggers are refused in a run and in lockout, and accepted from its end on") {
    TestImage image = image_of(blink(100));
    image.sequences[0].lockout = 5000;
    Booted board(image);
    const double begun = board.chip.now_us();
    board.chip.trip();
    board.chip.run_ms(50);
    board.chip.trip();
    board.chip.run_ms(100);
    CHECK(last_detail(board.link, refused) == 5);
    board.chip.run(begun + 4'900'000.0 - board.chip.now_us());
    board.chip.trip();
    board.chip.run_ms(50);
    CHECK(last_detail(board.link, refused) == 18);
    CHECK(runs(board.chip) == 1);
    board.chip.run(begun + 5'003'000.0 - board.chip.now_us());
    board.chip.trip();
    board.chip.run_ms(50);
    CHECK(runs(board.chip) == 2);
    const Answer status = board.link.ask(Ask::status);
    CHECK(status.u32(status::triggers) == 2);
    CHECK(status.u32(status::refusals) == 2);
    CHECK(status.u32(status::lockout) > 4'800);
}

TEST_CASE("Triggers are refused while the sensor warms up") {
    TestImage image = image_of(blink(10));
    image.warm_up = 3000;
    Booted board(image);
    board.chip.trip();
    board.chip.run_ms(100);
    CHECK(runs(board.chip) == 0);
    CHECK(last_detail(board.link, refused) == 19);
    board.chip.run_ms(3000);
    board.chip.trip();
    board.chip.run_ms(100);
    CHECK(runs(board.chip) == 1);
}

TEST_CASE("Triggered sequences are taken in turn where the image says so") {
    for (const bool in_turn : {false, true}) {
        TestImage image;
        image.flags = in_turn ? TestImage::in_turn : std::uint8_t{0};
        image.sequences = {blink(5), blink(5, Kind::by_hand), blink(5), blink(5)};
        for (std::uint8_t i = 0; i < 4; ++i) {
            image.sequences[i].events[0].output = image.sequences[i].events[1].output = i;
        }
        Booted board(image);
        std::vector<unsigned> played;
        for (int run = 0; run < 4; ++run) {
            board.chip.forget_changes();
            board.chip.trip();
            board.chip.run_ms(50);
            REQUIRE(board.chip.changes().size() == 2);
            played.push_back(board.chip.changes()[0].output);
        }
        CHECK(played == (in_turn ? std::vector<unsigned>{0, 2, 3, 0} : std::vector<unsigned>{0, 0, 0, 0}));
    }
}

TEST_CASE("An image says which level of the trigger input counts") {
    TestImage image = image_of(blink(10));
    image.flags = TestImage::trigger_high;
    SimulatedChip chip(image.bytes());
    chip.set(Input::trigger, true);  // low
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    chip.set(Input::trigger, false);
    chip.run_ms(100);
    CHECK(runs(chip) == 1);
    chip.set(Input::trigger, true);
    chip.run_ms(100);
    CHECK(runs(chip) == 1);
}
