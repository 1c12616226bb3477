// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp::board_test;

namespace {

Bytes image_of_events(std::uint32_t events) {
    return image_of(busy_sequence(events, 3, 8)).bytes();
}

struct Booted {
    explicit Booted(const Bytes& image = {}) : chip(image), link(chip) {
        chip.run_ms(SimulatedChip::boot_ms);
    }
    explicit Booted(const ChipMemory& memory) : chip(memory), link(chip) {
        chip.run_ms(SimulatedChip::boot_ms);
    }
    std::uint32_t image_state() { return link.ask(Ask::identify).u8(9); }
    SimulatedChip chip;
    LinkClient link;
};

Bytes chunk_of(std::uint32_t offset, std::size_t count) {
    Bytes payload = u32_bytes(offset);
    payload.resize(4 + count, 0x5A);
    return payload;
}

}  // namespace

TEST_CASE("A table loads over the link, reads back the same and plays") {
    // A page is erased, then written, in 3.7 to 4.5 ms each by the chip's data sheet (from memory).
    for (const double page_us : {0.0, 9000.0}) {
        Booted board;
        board.chip.write_flash_in(page_us);
        CHECK(board.image_state() == 2);
        const Bytes image = image_of_events(330);
        REQUIRE(image.size() > 2000);
        const double begun = board.chip.now_us();
        CHECK(board.link.load(image) == 0);
        CHECK(board.link.read_back(static_cast<std::uint32_t>(image.size())) == image);
        const double took = board.chip.now_us() - begun;
        CHECK(board.chip.resets() == 0);
        CHECK(board.image_state() == 1);
        board.chip.write_flash_in(0.0);
        board.chip.forget_changes();
        board.chip.trip();
        board.chip.run_ms(1100);
        CHECK(board.chip.changes().size() == 330);
        // Each chunk and each stretch read back is a frame of 11 bytes more, and is asked for or answered
        // by 12.
        const auto chunks = static_cast<double>((image.size() + 127) / 128);
        const double wire_us = (static_cast<double>(image.size()) + chunks * (11.0 + 12.0)) * 2.0 * 86.8;
        CHECK(took < 2.0 * wire_us);
        figure(
            "{} bytes loaded, verified and read back in {:.0f} ms, {:.2f} of the wire's time, with {:.0f} ms "
            "for a "
            "page of flash",
            image.size(), took / 1000, took / wire_us, page_us / 1000);
    }
}

TEST_CASE("A table of 1500 events loads and is kept over power loss") {
    Booted board;
    const Bytes image = image_of_events(1500);
    REQUIRE(board.link.load(image) == 0);
    Booted again(board.chip.memory());
    CHECK(again.image_state() == 1);
    CHECK(again.link.read_back(static_cast<std::uint32_t>(image.size())) == image);
}

TEST_CASE("A load that power cuts goes on where it was, or begins again: never a table in halves") {
    const Bytes before = image_of_events(200);
    const Bytes image = image_of_events(700);
    for (const unsigned chunks : {1U, 7U, 8U, 9U, 20U, 33U}) {
        Booted board(before);
        board.link.load_part(image, chunks);
        Booted again(board.chip.memory());
        CAPTURE(chunks);
        CHECK(again.image_state() != 1);
        CHECK(again.chip.changes().empty());
        again.chip.trip();
        again.chip.run_ms(100);
        CHECK(again.chip.changes().empty());
        Bytes begin = u32_bytes(static_cast<std::uint32_t>(image.size()));
        begin.insert(begin.end(), image.end() - 4, image.end());
        const Answer answer = again.link.ask(Ask::begin, begin);
        CHECK(answer.u32(0) == chunks / 8 * 1024);
        CHECK(again.link.load(image) == 0);
        CHECK(again.image_state() == 1);
    }
}

TEST_CASE("A board that never had a table has no fault, one whose table went bad has") {
    Booted board;
    CHECK(board.image_state() != 1);
    CHECK(board.link.ask(Ask::status).u32(status::faults) == 0);
    REQUIRE(board.link.load(image_of_events(20)) == 0);
    ChipMemory memory = board.chip.memory();
    memory.flash[GASPWORKS_BOARD_STORE_AT + 70] ^= 1U;
    Booted again(memory);
    CHECK(again.image_state() != 1);
    CHECK(again.link.ask(Ask::status).u32(status::faults) == 1);
}

TEST_CASE("Power cut between the beginning of a load and its first chunk leaves the old table whole") {
    Booted board(image_of(blink(5)).bytes());
    board.link.load_part(image_of_events(700), 0);
    Booted again(board.chip.memory());
    CHECK(again.image_state() == 1);
}

TEST_CASE("A page that power cut in the middle of its writing is found at commit") {
    const Bytes image = image_of_events(700);
    Booted board;
    board.link.load_part(image, 12);
    ChipMemory memory = board.chip.memory();
    // A page of the first step, half erased, though the note says it is there.
    std::fill_n(memory.flash.begin() + GASPWORKS_BOARD_STORE_AT + 3 * 128 + 64, 64, std::uint8_t{0xFF});
    Booted again(memory);
    CHECK(again.link.load(image) == 12);
    CHECK(again.chip.changes().empty());
    CHECK(again.link.load(image) == 0);  // from the beginning
    CHECK(again.image_state() == 1);
}

TEST_CASE("A load of another image does not go on with the one before") {
    Booted board;
    board.link.load_part(image_of_events(700), 10);
    const Bytes other = image_of_events(650);
    Bytes begin = u32_bytes(static_cast<std::uint32_t>(other.size()));
    begin.insert(begin.end(), other.end() - 4, other.end());
    CHECK(board.link.ask(Ask::begin, begin).u32(0) == 0);
    CHECK(board.link.load(other) == 0);
}

TEST_CASE("What does not fit, or comes out of order, is refused and said") {
    Booted board;
    Bytes begin = u32_bytes(SimulatedChip::store_bytes + 1);
    begin.resize(8);
    const Answer too_long = board.link.ask(Ask::begin, begin);
    CHECK(too_long.result == 10);
    CHECK(too_long.u32(0) == SimulatedChip::store_bytes);
    CHECK(board.link.ask(Ask::chunk, chunk_of(0, 128)).result == 21);
    const Bytes image = image_of_events(100);
    board.link.load_part(image, 2);
    const Answer out_of_order = board.link.ask(Ask::chunk, chunk_of(512, 128));
    CHECK(out_of_order.result == 11);
    CHECK(out_of_order.u32(0) == 256);
    CHECK(board.link.ask(Ask::chunk, chunk_of(256, 64)).result == 3);
    const Answer again = board.link.ask(Ask::chunk, chunk_of(128, 128));
    CHECK(again.result == 0);
    CHECK(again.u32(0) == 256);
    CHECK(board.link.ask(Ask::status).u8(status::state) == 1);
    CHECK(board.link.ask(Ask::arm).result == 16);
    Bytes commit = u32_bytes(static_cast<std::uint32_t>(image.size()));
    commit.insert(commit.end(), image.end() - 4, image.end());
    CHECK(board.link.ask(Ask::commit, commit).result == 11);
    CHECK(board.link.load(image) == 0);
    CHECK(board.link.ask(Ask::commit, commit).result == 0);  // its answer might have been lost
    commit[0] ^= 1U;
    CHECK(board.link.ask(Ask::commit, commit).result == 21);
}

TEST_CASE("Nothing is loaded during a run") {
    const Bytes image = image_of(blink(5000)).bytes();
    Booted board(image);
    board.chip.trip();
    board.chip.run_ms(20);
    Bytes begin = u32_bytes(100);
    begin.resize(8);
    CHECK(board.link.ask(Ask::begin, begin).result == 5);
    CHECK(board.chip.pin(0).level);
    CHECK(board.link.read_back(static_cast<std::uint32_t>(image.size())) == image);
}

TEST_CASE("A board that is stopped before it has a table rests when it gets one") {
    Booted board;
    CHECK(board.link.ask(Ask::stop).result == 0);
    CHECK(board.link.load(image_of(blink(5, Kind::idle)).bytes()) == 0);
    board.chip.forget_changes();
    board.chip.trip();
    board.chip.run_ms(500);
    CHECK(board.chip.changes().empty());
    Booted free;
    CHECK(free.link.load(image_of(blink(5, Kind::idle)).bytes()) == 0);
    free.chip.forget_changes();
    free.chip.run_ms(500);
    CHECK_FALSE(free.chip.changes().empty());
}

TEST_CASE("A load works with the trigger tripped and edges on the inputs all the while") {
    Booted board(image_of(blink(5, Kind::idle)).bytes());
    const Bytes image = image_of_events(300);
    board.link.load_part(image, 3);
    board.chip.forget_changes();
    for (int i = 0; i < 20; ++i) {
        board.chip.trip(3'000.0);
        board.chip.set(Input::rearm, i % 2 == 0);
        board.chip.run_ms(3);
    }
    CHECK(board.chip.changes().empty());
    CHECK(board.link.load(image) == 0);
}
