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
    /// Trips the trigger; true when output 0 is driven some ms later.
    bool runs() {
        chip.trip();
        chip.run_ms(10);
        return chip.pin(0).driven && chip.pin(0).level;
    }
    void press_rearm() {
        chip.set(Input::rearm, true);
        chip.run_ms(50);
        chip.set(Input::rearm, false);
        chip.run_ms(50);
    }
    std::uint32_t state() { return link.ask(Ask::status).u8(status::state); }
    bool logged(std::uint32_t kind, std::uint32_t detail) {
        const auto log = read_log(link);
        return std::ranges::any_of(
            log, [&](const Entry& entry) { return entry.kind == kind && entry.detail == detail; });
    }
    SimulatedChip chip;
    LinkClient link;
};

}  // namespace

TEST_CASE("The output-enable input brings every output to rest at once, and back only by re-arm") {
    TestImage image = image_of(blink(60'000));
    image.sequences[0].events.insert(image.sequences[0].events.begin() + 1, {0, 5, 1});
    image.sequences[0].events.push_back({60'000, 5, 0});
    Booted board(image);
    double slowest = 0.0;
    for (int phase = 0; phase < 50; ++phase) {
        REQUIRE(board.runs());
        board.chip.run(1000.0 + phase * 20.3);
        board.chip.forget_changes();
        const double opened = board.chip.now_us();
        board.chip.set(Input::enable, false);
        board.chip.run(phase % 2 == 0 ? 300.0 : 40'000.0);  // even a short opening holds
        REQUIRE(board.chip.changes().size() == 2);
        slowest = std::max(slowest, board.chip.changes().back().us - opened);
        REQUIRE(board.chip.all_at(false));
        board.chip.set(Input::enable, true);
        board.chip.run_ms(100);
        REQUIRE_FALSE(board.runs());
        board.press_rearm();
        REQUIRE(board.chip.all_at(false));  // re-arm itself starts nothing
    }
    CHECK(slowest < 200.0);
    figure("output-enable opened: all at rest within {:.1f} us", slowest);
    CHECK(board.logged(5, 1));
    CHECK(board.logged(6, 1));
}

TEST_CASE("A re-arm button that is stuck, or pressed while the stop is open, does nothing") {
    Booted board(image_of(blink(1000)));
    board.chip.set(Input::enable, false);
    board.chip.run_ms(20);
    CHECK(board.state() == 6);
    board.press_rearm();
    CHECK(board.state() == 6);
    board.chip.set(Input::rearm, true);
    board.chip.run_ms(20);
    board.chip.set(Input::enable, true);
    board.chip.run_ms(500);
    CHECK(board.state() == 7);
    CHECK_FALSE(board.runs());
    board.chip.set(Input::rearm, false);
    board.chip.run_ms(50);
    CHECK(board.state() == 7);
    board.press_rearm();
    CHECK(board.state() == 2);
    CHECK(board.runs());
}

TEST_CASE("With the output-enable input open from power-up nothing ever runs") {
    SimulatedChip chip(image_of(blink(1000)).bytes());
    chip.set(Input::enable, false);
    chip.run_ms(SimulatedChip::boot_ms);
    chip.trip();
    chip.run_ms(100);
    CHECK(chip.all_at(false));
}

TEST_CASE("An image may want re-arm after power-up") {
    TestImage image = image_of(blink(1000));
    image.flags = TestImage::rearm_at_power_up;
    Booted board(image);
    CHECK_FALSE(board.runs());
    board.press_rearm();
    CHECK(board.runs());
}

TEST_CASE("Hold-to-run: nothing runs without it, and letting go ends the run") {
    TestImage image = image_of(blink(60'000));
    image.flags = TestImage::hold_to_run;
    Booted board(image);
    CHECK_FALSE(board.runs());
    board.chip.set(Input::hold, true);
    CHECK(board.runs());
    const double let_go = board.chip.now_us();
    board.chip.forget_changes();
    board.chip.set(Input::hold, false);
    board.chip.run_ms(5);
    REQUIRE(board.chip.changes().size() == 1);
    CHECK(board.chip.changes()[0].us - let_go < 1'200.0);
    CHECK(board.logged(5, 3));
    board.chip.set(Input::hold, true);
    CHECK(board.chip.all_at(false));
    CHECK(board.runs());
}

TEST_CASE("From power-up no pin is driven but to its rest, of either level") {
    for (const bool low : {false, true}) {
        TestImage image = image_of(blink(1000));
        image.outputs.assign(12, low ? 5 : 4);
        SimulatedChip chip(image.bytes());
        chip.run_ms(SimulatedChip::boot_ms);
        CHECK(chip.changes().size() == 12);
        for (const PinChange& change : chip.changes()) {
            CHECK(change.driven);
            CHECK(change.level == low);
        }
    }
}

TEST_CASE("The watchdog resets a hung player, which then wants re-arm") {
    for (const bool interrupts : {true, false}) {
        Booted board(image_of(blink(60'000)));
        REQUIRE(board.runs());
        const double hung = board.chip.now_us();
        board.chip.hang(interrupts);
        board.chip.run_ms(SimulatedChip::boot_ms);
        REQUIRE(board.chip.resets() == 1);
        const double after_ms = (board.chip.last_reset_us() - hung) / 1000.0;
        CHECK(after_ms < 130.0);
        CHECK(board.chip.all_at(false));
        CHECK_FALSE(board.runs());
        CHECK(board.logged(1, 3));
        CHECK(board.logged(4, 5));
        board.press_rearm();
        CHECK(board.runs());
        figure("hung with interrupts {}: reset, outputs let go, after {:.0f} ms", interrupts ? "on" : "off",
               after_ms);
    }
}

TEST_CASE("A brown-out in a run ends it; the board is ready again and the log tells") {
    Booted board(image_of(blink(60'000)));
    REQUIRE(board.runs());
    board.chip.brown_out();
    CHECK_FALSE(board.chip.pin(0).driven);
    board.chip.run_ms(SimulatedChip::boot_ms);
    CHECK(board.chip.all_at(false));
    CHECK(board.logged(1, 2));
    CHECK(board.logged(4, 5));
    CHECK(board.runs());
}

TEST_CASE("An image with any one bit flipped is refused: no pin is ever driven") {
    const Bytes good = image_of(blink(5)).bytes();
    unsigned refused = 0;
    for (std::size_t bit = 0; bit < good.size() * 8; ++bit) {
        Bytes bad = good;
        bad[bit / 8] = static_cast<std::uint8_t>(bad[bit / 8] ^ (1U << (bit % 8)));
        SimulatedChip chip(bad);
        chip.run_ms(15);
        chip.trip();
        chip.run_ms(15);
        refused += chip.changes().empty() ? 1U : 0U;
    }
    CHECK(refused == good.size() * 8);
    figure("{} of {} single-bit flips of an image refused", refused, good.size() * 8);
}

TEST_CASE("An image that is wrong in itself, under a right CRC, is refused with the reason") {
    struct Flaw {
        std::size_t at;
        std::uint8_t value;
        std::uint32_t reason;
    };
    const TestImage image = image_of(blink(5));
    const std::size_t sequence = 56 + 8;
    const std::size_t event = sequence + 40;
    for (const Flaw flaw : {Flaw{0, 0, 2}, Flaw{4, 2, 3}, Flaw{6, 13, 6}, Flaw{21, 0, 7}, Flaw{22, 1, 7},
                            Flaw{5, 16, 8}, Flaw{7, 0, 8}, Flaw{28, 0, 8}, Flaw{30, 3, 8}, Flaw{31, 1, 8},
                            Flaw{56, 8, 8}, Flaw{sequence + 4, 3, 9}, Flaw{sequence + 11, 0x80, 9},
                            Flaw{sequence + 16, 3, 10}, Flaw{sequence + 20, 0, 9}, Flaw{event, 99, 10},
                            Flaw{event + 4, 8, 10}, Flaw{event + 5, 2, 10}, Flaw{event + 6 + 5, 1, 0}}) {
        Bytes bytes = image.bytes();
        bytes[flaw.at] = flaw.value;
        seal(bytes);
        SimulatedChip chip(bytes);
        chip.run_ms(SimulatedChip::boot_ms);
        LinkClient link(chip);
        const std::uint32_t state = link.ask(Ask::identify).u8(9);
        CAPTURE(flaw.at);
        CHECK(state == (flaw.reason == 0 ? 1 : flaw.reason));
        if (flaw.reason != 0) {
            CHECK(chip.changes().empty());
            const auto log = read_log(link);
            REQUIRE(log.size() == 2);
            CHECK(log[1].kind == 4);
            CHECK(log[1].detail == 1);
        }
    }
}
