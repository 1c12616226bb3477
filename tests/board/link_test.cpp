// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <random>

using namespace gasp::board_test;

namespace {

struct Booted {
    explicit Booted(const Bytes& image) : chip(image), link(chip) { chip.run_ms(SimulatedChip::boot_ms); }
    explicit Booted(const ChipMemory& memory) : chip(memory), link(chip) {
        chip.run_ms(SimulatedChip::boot_ms);
    }
    SimulatedChip chip;
    LinkClient link;
};

}  // namespace

TEST_CASE("A board says who it is and what it holds") {
    const Bytes image = image_of(blink(5)).bytes();
    Booted board(image);
    const Answer answer = board.link.ask(Ask::identify);
    REQUIRE(answer.result == 0);
    REQUIRE(answer.more.size() == 44);
    CHECK(answer.u16(0) == 0x0100);
    CHECK(answer.u8(2) == 12);
    CHECK(answer.u8(3) == 0x1F);
    CHECK(answer.u8(4) == 128);
    CHECK(answer.u32(5) == SimulatedChip::store_bytes);
    CHECK(answer.u8(9) == 1);
    CHECK(answer.u32(10) == image.size());
    CHECK(Bytes(answer.more.begin() + 14, answer.more.begin() + 18) == Bytes(image.end() - 4, image.end()));
    CHECK(answer.u32(18) == 0x12345678);
    CHECK(answer.u32(22) == 7);
    CHECK(answer.u16(26) == 1);
    CHECK(std::string(answer.more.begin() + 28, answer.more.end()) ==
          std::string("ATmega328P\0\0\0\0\0\0", 16));
}

TEST_CASE("Another version is refused politely, and an unknown request or form is named") {
    Booted board(image_of(blink(5)).bytes());
    board.chip.send(frame_of(2, 0x01, 77, {1, 2, 3}));
    REQUIRE(board.chip.run_until_frame(100'000.0));
    CHECK(frame_in(board.chip.received()) == Bytes{1, 0x81, 77, 1, 1, 1});
    CHECK(board.link.ask(static_cast<Ask>(0x55)).result == 2);
    CHECK(board.link.ask(Ask::identify, {1}).result == 3);
    CHECK(board.link.ask(Ask::hold, {0, 0}).result == 3);
    CHECK(board.link.ask(Ask::read_back, {0, 0, 0, 0, 0}).result == 3);
    CHECK(board.link.ask(Ask::read_back, {0, 0, 0, 0, 129}).result == 3);
    CHECK(board.link.ask(Ask::read_back, {0xFF, 0xFF, 0xFF, 0xFF, 1}).result == 3);
}

TEST_CASE("Noise before a frame costs nothing but itself") {
    Booted board(image_of(blink(5)).bytes());
    Bytes noise(300, 0x37);  // longer than any frame
    noise.push_back(0);
    board.chip.send(noise);
    board.chip.send({0x05, 0x01, 0, 0, 0});
    CHECK(board.link.ask(Ask::status).result == 0);
}

TEST_CASE("Of thousands of damaged frames the chip answers none wrongly, and goes on answering") {
    Booted board(image_of(blink(5)).bytes());
    std::mt19937 random(20261125);
    const auto pick = [&](std::size_t below) { return random() % below; };
    int answered = 0;
    int damaged = 0;
    for (int i = 0; i < 3000; ++i) {
        Bytes line = frame_of(1, 0x20, static_cast<std::uint8_t>(i), {});
        for (std::size_t error = 0; error <= pick(2); ++error) {
            const std::size_t at = pick(line.size());
            switch (pick(3)) {
                case 0:
                    line[at] = static_cast<std::uint8_t>(line[at] ^ (1U << pick(8)));
                    break;
                case 1:
                    line.erase(line.begin() + static_cast<std::ptrdiff_t>(at));
                    break;
                default:
                    line.insert(line.begin() + static_cast<std::ptrdiff_t>(at),
                                static_cast<std::uint8_t>(random()));
            }
        }
        if (frame_in(line).empty()) {
            ++damaged;
            board.chip.send(line);
            board.chip.run(2000.0);  // all of it, and what is made of it
            answered += board.chip.received().empty() ? 0 : 1;
        }
    }
    CHECK(answered == 0);
    board.chip.send({0});
    const Answer status = board.link.ask(Ask::status);
    CHECK(status.result == 0);
    CHECK(status.u8(status::armed) == 0);
    figure("{} damaged frames: {} answered", damaged, answered);
}

TEST_CASE("An echo comes at once, with the board's clock") {
    Booted board(image_of(blink(5)).bytes());
    const Bytes bytes(32, 0xA5);
    double longest = 0.0;
    for (int i = 0; i < 50; ++i) {
        board.chip.run(1000.0 + i * 23.0);
        const double asked = board.chip.now_us();
        const Answer answer = board.link.ask(Ask::echo, bytes);
        longest = std::max(longest, board.chip.now_us() - asked);
        REQUIRE(Bytes(answer.more.begin() + 4, answer.more.end()) == bytes);
        // The clock is read when the request is in: its 39 bytes take 3.4 ms.
        const double late = answer.u32(0) - (asked + 39 * 86.8);
        CHECK(late > -200.0);
        CHECK(late < 1500.0);
    }
    figure("echo of 32 bytes: {:.2f} ms at the longest, {:.2f} ms of it on the wire", longest / 1000,
           (39 + 44) * 86.8e-3);
    CHECK(longest < 10'000.0);
}

TEST_CASE("The log tells the night, is kept over power loss and can be cleared") {
    TestImage image = image_of(blink(5));
    image.sequences[0].lockout = 3000;
    Booted board(image.bytes());
    for (int i = 0; i < 4; ++i) {
        board.chip.trip();
        board.chip.run_ms(1490);
    }
    Booted again(board.chip.memory());
    again.chip.run_ms(100);
    auto log = read_log(again.link);
    REQUIRE(log.size() == 6);
    const std::vector<std::uint32_t> kinds{1, 2, 3, 2, 3, 1};
    for (std::size_t i = 0; i < kinds.size(); ++i) {
        CHECK(log[i].kind == kinds[i]);
    }
    CHECK(log[3].seconds == 3);
    CHECK(log[5].seconds == 0);
    Answer status = again.link.ask(Ask::status);
    CHECK(status.u32(status::triggers) == 2);
    CHECK(status.u32(status::refusals) == 2);
    CHECK(status.u32(status::faults) == 0);
    CHECK(again.link.ask(Ask::clear_log).result == 0);
    CHECK(read_log(again.link).empty());
    again.chip.trip();
    again.chip.run_ms(100);
    CHECK(read_log(again.link).size() == 1);
    Booted third(again.chip.memory());
    log = read_log(third.link);
    REQUIRE(log.size() == 2);
    CHECK(log[0].kind == 2);
    CHECK(third.link.ask(Ask::status).u32(status::triggers) == 1);
}

TEST_CASE("A log that runs over keeps the newest entries and counts all") {
    TestImage image = image_of(blink(5));
    Booted board(image.bytes());
    constexpr std::uint32_t triggers = 450;  // the ring holds 192 entries
    for (std::uint32_t i = 0; i < triggers; ++i) {
        board.chip.trip();
        board.chip.run_ms(1000);
    }
    for (int power_up = 0; power_up < 2; ++power_up) {
        Booted again(board.chip.memory());
        const auto log = read_log(again.link);
        CHECK(log.size() == 191);
        CHECK(again.link.ask(Ask::status).u32(status::triggers) == triggers);
        CHECK(log.back().kind == 1);
        for (std::size_t i = 1; i + 1 < log.size(); ++i) {
            CHECK(log[i].kind == 2);
            CHECK(log[i].seconds - log[i - 1].seconds >= 1);
            CHECK(log[i].seconds - log[i - 1].seconds <= 2);
        }
    }
}

TEST_CASE("A power cut while the log is written loses no more than that entry") {
    TestImage image = image_of(blink(5));
    for (int cut = 0; cut < 40; ++cut) {
        Booted board(image.bytes());
        for (int i = 0; i < 3; ++i) {
            board.chip.trip();
            board.chip.run_ms(1100);
        }
        board.chip.trip(3'000.0);
        board.chip.run_ms(cut * 0.5);  // five bytes take 17 ms
        Booted again(board.chip.memory());
        const auto log = read_log(again.link);
        REQUIRE(log.size() >= 5);
        REQUIRE(log.size() <= 6);
        for (std::size_t i = 1; i + 1 < log.size(); ++i) {
            CHECK(log[i].kind == 2);
        }
        CHECK(again.link.ask(Ask::status).u32(status::triggers) == log.size() - 2);
    }
}
