// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace gasp::board_test {

using Bytes = std::vector<std::uint8_t>;

struct TestEvent {
    std::uint32_t tick = 0;
    std::uint8_t output = 0;  ///< counted from 0
    std::uint8_t level = 0;
};

enum class Kind : std::uint8_t { triggered, idle, by_hand };

struct TestSequence {
    Kind kind = Kind::triggered;
    std::uint32_t length = 1000;
    std::uint32_t lockout = 0;
    std::vector<TestEvent> events;
    std::string name = "sequence";
};

/// A table image as resources/board-player/image.md describes it, written by nobody but this test.
struct TestImage {
    std::uint8_t flags = 0;
    std::uint32_t tick_us = 1000;
    std::uint32_t warm_up = 0;
    std::uint16_t debounce = 2;
    std::uint8_t start_line = 0;
    std::uint32_t revision = 0x12345678;
    std::vector<std::uint8_t> outputs = std::vector<std::uint8_t>(8, output_used);
    std::vector<TestSequence> sequences;

    static constexpr std::uint8_t output_low = 1;
    static constexpr std::uint8_t output_used = 4;
    static constexpr std::uint8_t trigger_high = 1;
    static constexpr std::uint8_t in_turn = 2;
    static constexpr std::uint8_t hold_to_run = 4;
    static constexpr std::uint8_t rearm_at_power_up = 8;

    [[nodiscard]] Bytes bytes() const;
};

/// An image of one sequence.
[[nodiscard]] TestImage image_of(TestSequence sequence);
/// A lamp's blink: output 0 is driven from tick 0 for so long, in a sequence twice as long.
[[nodiscard]] TestSequence blink(std::uint32_t ticks, Kind kind = Kind::triggered);

/// CRC-32/ISO-HDLC by its definition, from the highest bit on of the reversed message: not the player's way.
[[nodiscard]] std::uint32_t crc32_of(const Bytes& bytes);

/// Puts the right CRC at the end of an image that was tampered with.
void seal(Bytes& image);

/// So many events, spread over the sequence and the outputs so that each changes its output and all rest at
/// the end.
[[nodiscard]] TestSequence busy_sequence(std::uint32_t events, std::uint32_t ticks_between,
                                         std::uint8_t outputs);

}  // namespace gasp::board_test
