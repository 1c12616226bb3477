// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/playing.hpp"

#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp::board_test;

namespace {

constexpr double tick_us = 1000.0;
// The promise is 200 us after the table's time; an edge before it would be as wrong.
constexpr double latest_us = 200.0;
constexpr int board_outputs = 12;

/// Powers up with the image, trips the trigger after so long and plays the first sequence to its end.
Comparison play(const TestImage& image, double before_us = 0.0) {
    SimulatedChip chip(image.bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    chip.run(before_us);
    chip.forget_changes();
    const double zero = chip.now_us() + image.debounce * static_cast<double>(image.tick_us);
    const TestSequence& sequence = image.sequences[0];
    chip.trip(3.0 * image.tick_us);
    chip.run((sequence.length + 100.0) * image.tick_us);
    const bool low = (image.outputs[0] & TestImage::output_low) != 0;
    CHECK(chip.all_at(low));
    return compare(chip, sequence, zero, image.tick_us, low);
}

/// All outputs of the board change at once, so many times, so many ticks apart.
TestSequence outputs_together(int times, std::uint32_t apart) {
    TestSequence sequence;
    for (int i = 0; i < times; ++i) {
        for (std::uint8_t output = 0; output < board_outputs; ++output) {
            sequence.events.push_back({static_cast<std::uint32_t>(i + 1) * apart, output,
                                       static_cast<std::uint8_t>(i % 2 == 0 ? 1 : 0)});
        }
    }
    sequence.length = static_cast<std::uint32_t>(times + 1) * apart;
    return sequence;
}

void check_all(const Comparison& result, std::size_t edges) {
    CHECK(result.edges == edges);
    CHECK(result.wrong == 0);
    CHECK(result.least_us >= 0.0);
    CHECK(result.most_us <= latest_us);
}

}  // namespace

TEST_CASE("Every edge of a table comes at its time") {
    const Comparison result = play(image_of(busy_sequence(300, 37, 8)));
    check_all(result, 300);
    figure("300 edges on 8 outputs: {:.1f} to {:.1f} us after the table", result.least_us, result.most_us);
}

TEST_CASE("A table of 1500 events, which fits a chip of 32 KB, plays as any other") {
    const TestImage image = image_of(busy_sequence(1500, 3, 8));
    REQUIRE(image.bytes().size() <= SimulatedChip::store_bytes);
    const Comparison result = play(image);
    check_all(result, 1500);
    figure("1500 events: an image of {} bytes of {} (room for {} events)", image.bytes().size(),
           SimulatedChip::store_bytes, 1500 + (SimulatedChip::store_bytes - image.bytes().size()) / 6);
}

TEST_CASE("Edges keep to the trigger at any phase of it") {
    TestImage image = image_of(blink(7));
    image.sequences[0].events.insert(image.sequences[0].events.begin() + 1, {{1, 1, 1}, {2, 1, 0}});
    SimulatedChip chip(image.bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    double least = 1e9;
    double most = -1e9;
    for (int phase = 0; phase < 200; ++phase) {
        chip.run(13'000.0 + phase * 5.0 + (phase % 16) / 16.0);
        chip.forget_changes();
        const double zero = chip.now_us() + 2 * tick_us;
        chip.trip(5'000.0);
        chip.run_ms(30);
        const Comparison result = compare(chip, image.sequences[0], zero, tick_us);
        REQUIRE(result.wrong == 0);
        least = std::min(least, result.least_us);
        most = std::max(most, result.most_us);
    }
    CHECK(least >= 0.0);
    CHECK(most <= latest_us);
    figure("200 phases of the trigger: {:.1f} to {:.1f} us after the table", least, most);
}

TEST_CASE("A shorter and a longer tick are kept as well") {
    for (const std::uint32_t tick : {500U, 10'000U, 30'000U}) {
        TestImage image = image_of(busy_sequence(40, 2, 5));
        image.tick_us = tick;
        check_all(play(image), 40);
    }
}

TEST_CASE("All outputs of the board change in one tick") {
    for (const bool low : {false, true}) {
        TestImage image = image_of(outputs_together(2, 2));
        image.outputs.assign(12, low ? 5 : 4);
        const Comparison result = play(image);
        check_all(result, 24);
        figure("12 outputs in one tick, driven {}: {:.1f} to {:.1f} us after the table", low ? "low" : "high",
               result.least_us, result.most_us);
    }
}

TEST_CASE("There is no drift over a simulated hour") {
    TestSequence sequence;
    for (std::uint32_t second = 0; second < 3600; ++second) {
        sequence.events.push_back(
            {second * 1000 + 17, 0, static_cast<std::uint8_t>(second % 2 == 0 ? 1 : 0)});
    }
    sequence.length = 3'600'000;
    // 3600 events are more than the store holds: every second one's pair is 2 s apart.
    while (sequence.events.size() * 6 + 200 > SimulatedChip::store_bytes) {
        sequence.events.erase(sequence.events.begin() + 2, sequence.events.begin() + 4);
    }
    const TestImage image = image_of(sequence);
    SimulatedChip chip(image.bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    const double zero = chip.now_us() + 2 * tick_us;
    chip.trip();
    chip.run_ms(3'600'100.0);
    const Comparison result = compare(chip, sequence, zero, tick_us);
    check_all(result, sequence.events.size());
    const auto& changes = chip.changes();
    const double first = changes.front().us - zero - 17'000.0;
    const double last = changes.back().us - zero - sequence.events.back().tick * tick_us;
    CHECK(std::abs(last - first) < 10.0);
    figure(
        "an hour: {} edges, {:.1f} to {:.1f} us after the table, last less first {:.1f} us (the simulated "
        "crystal is perfect)",
        result.edges, result.least_us, result.most_us, last - first);
}

TEST_CASE("Edges keep their time while the link is busy") {
    // The second: all outputs in one tick, 50 times, each at another moment of what the link does.
    for (const bool together : {false, true}) {
        TestImage image = image_of(together ? outputs_together(50, 7) : busy_sequence(300, 7, 8));
        image.outputs.assign(board_outputs, TestImage::output_used);
        SimulatedChip chip(image.bytes());
        chip.run_ms(SimulatedChip::boot_ms);
        chip.forget_changes();
        LinkClient link(chip);
        const double zero = chip.now_us() + 2 * tick_us;
        chip.trip();
        while (chip.now_us() < zero + image.sequences[0].length * tick_us) {
            REQUIRE(link.ask(Ask::status).result == 0);
            REQUIRE(link.ask(Ask::echo, Bytes(32, 0x55)).result == 0);
        }
        const Comparison result = compare(chip, image.sequences[0], zero, tick_us);
        check_all(result, image.sequences[0].events.size());
        figure("{} edges under a busy link, {} a tick: {:.1f} to {:.1f} us after the table", result.edges,
               together ? board_outputs : 1, result.least_us, result.most_us);
    }
}

TEST_CASE("Interrupts take less than a twentieth of the chip's time") {
    const TestImage image = image_of(busy_sequence(1000, 2, 8));
    SimulatedChip chip(image.bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    chip.trip();
    chip.run_ms(100);
    const double load = chip.interrupt_load(1'500'000.0);
    CHECK(load < 0.05);
    figure("an event every 2 ms: interrupts {:.2f} % of the time", load * 100);
}

TEST_CASE("Idle sequences follow one another without a gap, and a trigger ends them") {
    TestImage image;
    image.sequences = {blink(20), blink(10, Kind::idle), blink(5, Kind::idle)};
    image.sequences[2].events[0].output = image.sequences[2].events[1].output = 1;
    SimulatedChip chip(image.bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    chip.run_ms(3000);
    const auto& changes = chip.changes();
    REQUIRE(changes.size() > 380);
    for (std::size_t i = 4; i < changes.size(); ++i) {
        CHECK(changes[i].output == changes[i - 4].output);
        CHECK(std::abs(changes[i].us - changes[i - 4].us - 30'000.0) < 20.0);
    }
    chip.forget_changes();
    const double zero = chip.now_us() + 2 * tick_us;
    chip.trip();
    chip.run_ms(17);
    std::vector<PinChange> after;
    std::ranges::copy_if(chip.changes(), std::back_inserter(after),
                         [&](const PinChange& change) { return change.us > zero + 500.0; });
    REQUIRE(after.size() == 1);
    CHECK(after[0].output == 0);
    CHECK(after[0].us - zero - 20 * tick_us < latest_us);
}

TEST_CASE("A by-hand sequence is started by nothing but the link") {
    SimulatedChip chip(image_of(blink(10, Kind::by_hand)).bytes());
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    chip.trip();
    chip.run_ms(100);
    CHECK(chip.changes().empty());
}
