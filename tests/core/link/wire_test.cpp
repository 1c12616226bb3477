// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/wire.hpp"

#include "core/link/board_facts.hpp"
#include "core/link/refusal.hpp"
#include "tests/support/catch.hpp"

#include <bit>

#include "player/crc.h"
#include "player/frame.h"

using namespace gasp;

TEST_CASE("numbers go over the wire little endian and come back") {
    const LinkBytes bytes = WireWriter().u8(0x12).u16(0x3456).u32(0x789ABCDE).bytes();
    CHECK(bytes == LinkBytes{0x12, 0x56, 0x34, 0xDE, 0xBC, 0x9A, 0x78});
    WireReader in(bytes);
    CHECK(in.u8() == 0x12);
    CHECK(in.u16() == 0x3456);
    CHECK(in.u32() == 0x789ABCDE);
    CHECK(in.at_end());
    CHECK(in.u32() == 0);
    CHECK_FALSE(in.good());
}

TEST_CASE("a board's text cannot steer a terminal") {
    const LinkBytes bytes{'a', 0x1B, '[', 0xC3, 0, 'x', 'y'};
    WireReader in(bytes);
    CHECK(in.text(7) == "a?[?");
}

TEST_CASE("what a board says of itself must make sense") {
    LinkBytes bytes = WireWriter()
                          .u16(0x0100)
                          .u8(8)
                          .u8(3)
                          .u8(128)
                          .u32(16384)
                          .u8(0)
                          .u32(0)
                          .u32(0)
                          .u32(0)
                          .u32(0)
                          .u16(4)
                          .bytes();
    bytes.insert(bytes.end(), 16, 0);
    REQUIRE(read_identity(bytes, "port"));
    const auto changed = [&](std::size_t at, std::uint8_t to) {
        LinkBytes other = bytes;
        other[at] = to;
        return read_identity(other, "port");
    };
    CHECK_FALSE(changed(2, 0));    // outputs
    CHECK_FALSE(changed(2, 33));   // likewise
    CHECK_FALSE(changed(4, 0));    // chunk: a load would never end
    CHECK_FALSE(changed(4, 129));  // would not fit a frame
    CHECK_FALSE(changed(13, 1));   // an image longer than the store
    bytes.pop_back();
    CHECK_FALSE(read_identity(bytes, "port"));
    CHECK_FALSE(read_status(LinkBytes(45, 0xFF), "port"));
    CHECK_FALSE(read_status({}, "port"));
    CHECK_FALSE(read_log_part(LinkBytes{1, 0, 1, 0, 0, 0, 0}, "port"));      // cut
    CHECK_FALSE(read_log_part(LinkBytes{1, 0, 77, 0, 0, 0, 0, 0}, "port"));  // no such kind
    CHECK_FALSE(read_log_part(LinkBytes{0, 0, 1, 0, 0, 0, 0, 0}, "port"));   // more than there are
    CHECK(read_log_part(LinkBytes{1, 0, 3, 18, 9, 0, 0, 0}, "port").value().entries.size() == 1);
}

TEST_CASE("every answer of a board and every entry of its log has words") {
    for (unsigned number = 0; number < 256; ++number) {
        const auto byte = static_cast<std::uint8_t>(number);
        CHECK_FALSE(answer_words(static_cast<BoardAnswer>(byte)).empty());
        CHECK_FALSE(reason_words(byte).empty());
        CHECK_FALSE(words(static_cast<BoardState>(byte)).empty());
        CHECK_FALSE(words(LogEntry{LogKind::refusal, byte, 0}).empty());
        BoardReply reply;
        reply.result = static_cast<BoardAnswer>(byte);
        CHECK((byte == 0 || !refusal(reply, "port").remedy.empty()));
    }
    CHECK(words(LogEntry{LogKind::refusal, 18, 9}) == "trigger refused: lockout");
    CHECK(words(LogEntry{LogKind::power_up, 2, 0}) == "power-up: brown-out");
    // resources/board-player/protocol.md, "Log entry": the details of a fault.
    for (std::uint8_t detail = 1; detail <= 5; ++detail) {
        CHECK(words(LogEntry{LogKind::fault, detail, 0}) != "fault: unknown");
    }
    CHECK(words(LogEntry{LogKind::fault, 5, 0}) == "fault: reset by a brown-out or the watchdog");
}

TEST_CASE("the CRC finds every error of up to three bits, and any within two bytes, in a longest frame") {
    // What resources/board-player/protocol.md claims, tried out. A CRC is linear: the error shows in it as
    // the sum of what its bits do, whatever the frame holds.
    constexpr std::size_t size = gb_frame_payload_most + 3;
    constexpr std::size_t bits = 8 * (size + 2);
    std::vector<std::uint8_t> frame(size);
    const std::uint16_t none = gb_crc16(frame.data(), size);
    std::vector<std::uint16_t> of_bit;  // in the order of the line, the CRC low byte first
    for (std::size_t bit = 0; bit < 8 * size; ++bit) {
        frame[bit / 8] = static_cast<std::uint8_t>(0x80U >> bit % 8);
        of_bit.push_back(gb_crc16(frame.data(), size) ^ none);
        frame[bit / 8] = 0;
    }
    for (std::size_t bit = 0; bit < 16; ++bit) {
        of_bit.push_back(static_cast<std::uint16_t>((0x80U >> bit % 8) << (bit < 8 ? 0 : 8)));
    }
    std::vector<bool> one(65536);
    bool found = true;
    for (const std::uint16_t error : of_bit) {
        found = found && error != 0 && !one[error];  // one bit; two that cancel
        one[error] = true;
    }
    for (std::size_t i = 0; i < bits; ++i) {
        for (std::size_t j = i + 1; j < bits; ++j) {
            found = found && !one[of_bit[i] ^ of_bit[j]];  // with a third
        }
    }
    // Of an even weight: no odd number of them makes 0.
    for (const std::uint16_t error : of_bit) {
        found = found && std::popcount(error) % 2 == 1;
    }
    CHECK(found);
    bool burst_found = true;
    for (std::size_t byte = 0; byte < size + 1; ++byte) {
        if (byte == size - 1) {
            continue;  // its low byte first, the CRC does not follow what it is of
        }
        std::uint16_t sum = 0;
        for (unsigned damage = 1; damage < 65536; ++damage) {  // in Gray's order, a bit at a time
            sum = static_cast<std::uint16_t>(
                sum ^ of_bit[8 * byte + static_cast<std::size_t>(std::countr_zero(damage))]);
            burst_found = burst_found && sum != 0;
        }
    }
    CHECK(burst_found);
}

TEST_CASE("CRC-16/IBM-3740 of 123456789 is the catalogue's") {
    // Greg Cook, Catalogue of parametrised CRC algorithms, CRC-16/IBM-3740 (also CCITT-FALSE), check.
    constexpr std::string_view check = "123456789";
    CHECK(gb_crc16(check.data(), check.size()) == 0x29B1);
}
