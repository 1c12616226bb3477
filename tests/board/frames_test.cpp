// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <string_view>

#include "player/crc.h"

using namespace gasp::board_test;

// Check values of the CRC RevEng catalogue for "123456789", as transcribed in the crc-catalog crate.
TEST_CASE("The player's CRCs give the check values of the catalogue") {
    std::uint32_t crc32 = GB_CRC32_BEGIN;
    Bytes digits;
    for (const char digit : std::string_view("123456789")) {
        digits.push_back(static_cast<std::uint8_t>(digit));
        crc32 = gb_crc32(crc32, digits.back());
    }
    CHECK(gb_crc16(digits.data(), 9) == 0x29B1);  // CRC-16/IBM-3740
    CHECK((crc32 ^ 0xFFFFFFFFU) == 0xCBF43926);   // CRC-32/ISO-HDLC
    CHECK(crc32_of(digits) == 0xCBF43926);
}

// Cheshire and Baker, "Consistent Overhead Byte Stuffing", IEEE/ACM Transactions on Networking 7 (1999): a
// block is its length plus one, then its bytes, and stands for the zero behind it. From memory.
TEST_CASE("Frames are stuffed as the paper has it") {
    const Bytes line = frame_of(1, 0, 0, {0x11, 0, 0, 0x22});
    REQUIRE(line.size() == 3 + 4 + 2 + 2);
    CHECK(Bytes(line.begin(), line.begin() + 7) == Bytes{2, 1, 1, 2, 0x11, 1, 4});
    CHECK(line.back() == 0);
}

TEST_CASE("Any frame comes back from the line as it was, and holds one zero") {
    REQUIRE(rc::check([] {
        const auto payload = *rc::gen::resize(132, rc::gen::arbitrary<Bytes>());
        RC_PRE(payload.size() <= 132U);
        const auto type = *rc::gen::arbitrary<std::uint8_t>();
        const Bytes line = frame_of(1, type, 9, payload);
        RC_ASSERT(line.size() == payload.size() + 7);
        RC_ASSERT(std::ranges::find(line, 0) == line.end() - 1);
        Bytes expected{1, type, 9};
        expected.insert(expected.end(), payload.begin(), payload.end());
        RC_ASSERT(frame_in(line) == expected);
    }));
}

TEST_CASE("No frame with one byte changed is taken for another") {
    REQUIRE(rc::check([] {
        const auto payload = *rc::gen::resize(60, rc::gen::arbitrary<Bytes>());
        Bytes line = frame_of(1, 0x30, 9, payload);
        const auto at = *rc::gen::inRange<std::size_t>(0, line.size() - 1);
        line[at] = static_cast<std::uint8_t>(line[at] ^ *rc::gen::inRange(1, 256));
        const Bytes frame = frame_in(line);
        RC_ASSERT(frame.empty());
    }));
}
