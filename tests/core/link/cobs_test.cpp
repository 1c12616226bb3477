// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "player/cobs.h"

#include "tests/support/catch.hpp"

#include <cstdint>
#include <optional>
#include <utility>
#include <vector>

namespace {

using Bytes = std::vector<std::uint8_t>;

Bytes encoded(const Bytes& bytes) {
    Bytes line{0};
    line.insert(line.end(), bytes.begin(), bytes.end());
    gb_cobs_encode(line.data(), static_cast<std::uint8_t>(line.size()));
    line.push_back(0);
    return line;
}

/// Nothing: it is no encoding.
std::optional<Bytes> decoded(Bytes line) {
    if (!gb_cobs_decode(line.data(), static_cast<std::uint8_t>(line.size() - 1))) {
        return std::nullopt;
    }
    return Bytes(line.begin() + 1, line.end() - 1);
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

TEST_CASE("what runs past its end is no encoding") {
    CHECK_FALSE(decoded({0x05, 0x11, 0x22, 0x33, 0x00}));
    CHECK_FALSE(decoded({0x02, 0x11, 0xFF, 0x22, 0x00}));
    CHECK(decoded({0x04, 0x11, 0x22, 0x33, 0x00}) == Bytes{0x11, 0x22, 0x33});
}
