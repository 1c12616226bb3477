// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "player/cobs.h"

#include "tests/support/catch.hpp"

#include <cstdint>
#include <utility>
#include <vector>

namespace {

using Bytes = std::vector<std::uint8_t>;

Bytes encoded(const Bytes& bytes) {
    gb_cobs_encoder encoder{};
    gb_cobs_send(&encoder, bytes.data(), static_cast<std::uint8_t>(bytes.size()));
    Bytes line;
    for (std::uint8_t byte = 0; gb_cobs_next(&encoder, &byte);) {
        line.push_back(byte);
    }
    return line;
}

Bytes decoded(const Bytes& line) {
    gb_cobs_decoder decoder{};
    gb_cobs_begin(&decoder);
    Bytes bytes;
    for (const std::uint8_t byte : line) {
        std::uint8_t out = 0;
        if (gb_cobs_take(&decoder, byte, &out) == gb_cobs_byte) {
            bytes.push_back(out);
        }
    }
    return bytes;
}

}  // namespace

TEST_CASE("the worked examples of COBS encode as published") {
    // S. Cheshire, M. Baker, Consistent Overhead Byte Stuffing, IEEE/ACM Transactions on Networking 7 (1999),
    // as tabulated in the article of the same name of Wikipedia, examples 1 to 7 (from memory); 0 closes
    // each.
    Bytes run;
    for (unsigned byte = 1; byte <= 0xFD; ++byte) {
        run.push_back(static_cast<std::uint8_t>(byte));
    }
    Bytes run_encoded{0xFE};
    run_encoded.insert(run_encoded.end(), run.begin(), run.end());
    run_encoded.push_back(0);
    const std::vector<std::pair<Bytes, Bytes>> examples{
        {{0x00}, {0x01, 0x01, 0x00}},
        {{0x00, 0x00}, {0x01, 0x01, 0x01, 0x00}},
        {{0x00, 0x11, 0x00}, {0x01, 0x02, 0x11, 0x01, 0x00}},
        {{0x11, 0x22, 0x00, 0x33}, {0x03, 0x11, 0x22, 0x02, 0x33, 0x00}},
        {{0x11, 0x22, 0x33, 0x44}, {0x05, 0x11, 0x22, 0x33, 0x44, 0x00}},
        {{0x11, 0x00, 0x00, 0x00}, {0x02, 0x11, 0x01, 0x01, 0x01, 0x00}},
        {run, run_encoded},
    };
    for (const auto& [bytes, line] : examples) {
        CHECK(encoded(bytes) == line);
        CHECK(decoded(line) == bytes);
    }
}
