// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/test_image.hpp"

#include <algorithm>
#include <cstddef>
#include <utility>

namespace gasp::board_test {

namespace {

void put(Bytes& bytes, std::uint32_t value, int count) {
    for (int i = 0; i < count; ++i) {
        bytes.push_back(static_cast<std::uint8_t>(value >> (8 * i)));
    }
}

void put_name(Bytes& bytes, const std::string& name, std::size_t room) {
    for (std::size_t i = 0; i < room; ++i) {
        bytes.push_back(i < name.size() ? static_cast<std::uint8_t>(name[i]) : std::uint8_t{0});
    }
}

std::uint32_t reversed(std::uint32_t value, int bits) {
    std::uint32_t result = 0;
    for (int i = 0; i < bits; ++i) {
        result |= ((value >> i) & 1U) << (bits - 1 - i);
    }
    return result;
}

}  // namespace

std::uint32_t crc32_of(const Bytes& bytes) {
    constexpr std::uint32_t polynomial = 0x04C11DB7;
    std::uint32_t crc = 0xFFFFFFFF;
    for (const std::uint8_t byte : bytes) {
        crc ^= reversed(byte, 8) << 24;
        for (int bit = 0; bit < 8; ++bit) {
            crc = (crc & 0x80000000) != 0 ? (crc << 1) ^ polynomial : crc << 1;
        }
    }
    return ~reversed(crc, 32);
}

void seal(Bytes& image) {
    image.resize(image.size() - 4);
    put(image, crc32_of(image), 4);
}

Bytes TestImage::bytes() const {
    std::size_t length = 56 + outputs.size() + sequences.size() * 40 + 4;
    for (const TestSequence& sequence : sequences) {
        length += sequence.events.size() * 6;
    }
    Bytes image{0xA7, 0x47, 0x54, 0x42, 1, flags};
    put(image, static_cast<std::uint32_t>(outputs.size()), 1);
    put(image, static_cast<std::uint32_t>(sequences.size()), 1);
    put(image, static_cast<std::uint32_t>(length), 4);
    put(image, revision, 4);
    put(image, 7, 4);
    put(image, tick_us, 4);
    put(image, warm_up, 4);
    put(image, debounce, 2);
    put(image, start_line, 1);
    put(image, 0, 1);
    put_name(image, "marsh board", 24);
    image.insert(image.end(), outputs.begin(), outputs.end());
    std::size_t at = image.size() + sequences.size() * 40;
    std::uint32_t id = 1;
    for (const TestSequence& sequence : sequences) {
        put(image, id++, 4);
        put(image, static_cast<std::uint32_t>(sequence.kind), 4);
        put(image, sequence.length, 4);
        put(image, sequence.lockout, 4);
        put(image, static_cast<std::uint32_t>(sequence.events.size()), 4);
        put(image, static_cast<std::uint32_t>(at), 4);
        put_name(image, sequence.name, 16);
        at += sequence.events.size() * 6;
    }
    for (const TestSequence& sequence : sequences) {
        for (const TestEvent& event : sequence.events) {
            put(image, event.tick, 4);
            put(image, event.output, 1);
            put(image, event.level, 1);
        }
    }
    put(image, crc32_of(image), 4);
    return image;
}

TestImage image_of(TestSequence sequence) {
    TestImage image;
    image.sequences = {std::move(sequence)};
    return image;
}

TestSequence blink(std::uint32_t ticks, Kind kind) {
    TestSequence sequence;
    sequence.kind = kind;
    sequence.length = 2 * ticks;
    sequence.events = {{0, 0, 1}, {ticks, 0, 0}};
    return sequence;
}

TestSequence busy_sequence(std::uint32_t events, std::uint32_t ticks_between, std::uint8_t outputs) {
    TestSequence sequence;
    std::vector<std::uint8_t> level(outputs, 0);
    std::uint32_t tick = 0;
    std::uint32_t state = 12345;
    for (std::uint32_t left = events; left > 0; --left) {
        state = state * 1664525 + 1013904223;
        std::uint8_t output = static_cast<std::uint8_t>((state >> 16) % outputs);
        const auto high = static_cast<std::uint32_t>(std::ranges::count(level, 1));
        if (left <= high) {  // nothing but going to rest from here on
            output = static_cast<std::uint8_t>(std::ranges::find(level, 1) - level.begin());
        } else if (left == high + 1 && level[output] == 0) {
            output =
                high > 0 ? static_cast<std::uint8_t>(std::ranges::find(level, 1) - level.begin()) : output;
        }
        level[output] ^= 1U;
        sequence.events.push_back({tick, output, level[output]});
        tick += ticks_between;
    }
    sequence.length = tick + 1;
    return sequence;
}

}  // namespace gasp::board_test
