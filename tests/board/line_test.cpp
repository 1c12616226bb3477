// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp::board_test;

namespace {

/// Two boards with a start line between them, the follower's clock begun at another moment.
struct Pair {
    explicit Pair(TestImage image) : leader(with(image, 1)), follower(with(image, 2)) {
        follower.run(377.0);
        run_ms(SimulatedChip::boot_ms);
        leader.forget_changes();
        follower.forget_changes();
    }
    static Bytes with(TestImage image, std::uint8_t role) {
        image.start_line = role;
        return image.bytes();
    }
    void run_ms(double ms) {
        constexpr double step_us = 5.0;  // how late the follower sees the line at the most
        for (double passed = 0.0; passed < ms * 1000.0; passed += step_us) {
            leader.run(step_us);
            const bool low = leader.line_pulled_low();
            if (low != line_low) {
                line_low = low;
                follower.set(Input::line, low);
            }
            follower.run(step_us);
        }
    }
    /// The time at the follower that is the leader's.
    [[nodiscard]] double apart() const { return follower.now_us() - leader.now_us(); }

    SimulatedChip leader;
    SimulatedChip follower;
    bool line_low = false;
};

TestImage three_scares() {
    TestImage image;
    image.flags = TestImage::in_turn;
    image.sequences = {blink(5), blink(7), blink(9)};
    for (std::uint8_t i = 0; i < 3; ++i) {
        image.sequences[i].events[0].output = image.sequences[i].events[1].output = i;
    }
    return image;
}

}  // namespace

TEST_CASE("A follower starts with its leader, and the same sequence") {
    Pair boards(three_scares());
    double furthest = 0.0;
    for (unsigned run = 0; run < 7; ++run) {
        boards.run_ms(3.0 + 0.137 * run);
        boards.leader.forget_changes();
        boards.follower.forget_changes();
        boards.leader.set(Input::trigger, true);
        boards.run_ms(60);
        boards.leader.set(Input::trigger, false);
        const auto& leads = boards.leader.changes();
        const auto& follows = boards.follower.changes();
        REQUIRE(leads.size() == 2);
        REQUIRE(follows.size() == 2);
        for (std::size_t i = 0; i < 2; ++i) {
            CHECK(leads[i].output == run % 3);
            CHECK(follows[i].output == run % 3);
            furthest = std::max(furthest, std::abs(follows[i].us - boards.apart() - leads[i].us));
        }
    }
    CHECK(furthest < 200.0);
    figure(
        "start line: leader and follower within {:.0f} us of one another (line looked at every 5 us, both "
        "crystals perfect)",
        furthest);
}

TEST_CASE("A stop of the leader stops its followers") {
    TestImage image = image_of(blink(60'000));
    Pair boards(image);
    boards.leader.set(Input::trigger, true);
    boards.run_ms(50);
    REQUIRE(boards.leader.pin(0).level);
    REQUIRE(boards.follower.pin(0).level);
    boards.leader.set(Input::enable, false);
    boards.run_ms(1);
    CHECK(boards.leader.all_at(false));
    boards.run_ms(90);
    CHECK(boards.follower.all_at(false));
    CHECK_FALSE(boards.leader.line_pulled_low());
}

TEST_CASE("A follower that finds its line low at power-up starts nothing when it is let go") {
    TestImage image = three_scares();
    image.start_line = 2;
    for (int ms = 1; ms <= 60; ++ms) {
        SimulatedChip chip(image.bytes());
        chip.set(Input::line, true);
        chip.run_ms(ms);
        chip.forget_changes();
        chip.set(Input::line, false);
        chip.run_ms(100);
        CHECK(std::ranges::none_of(chip.changes(), &PinChange::level));
    }
}

TEST_CASE("A follower starts by nothing but its line, and a pulse of no meaning is logged") {
    TestImage image = image_of(blink(20));
    image.start_line = 2;
    SimulatedChip chip(image.bytes());
    LinkClient link(chip);
    chip.run_ms(SimulatedChip::boot_ms);
    chip.forget_changes();
    chip.trip();
    chip.run_ms(100);
    CHECK(chip.changes().empty());
    Bytes run = link.arm();
    run.push_back(0);
    CHECK(link.ask(Ask::run, run).result == 20);
    link.ask(Ask::disarm);
    for (const double ms : {0.3, 1.5, 6.1, 7.9, 30.0}) {
        chip.run_ms(1100);
        chip.set(Input::line, true);
        chip.run_ms(ms);
        chip.set(Input::line, false);
        chip.run_ms(60);
        CHECK(chip.changes().empty());
    }
    CHECK(link.ask(Ask::status).u32(status::faults) == 5);
    for (const double ms : {3.05, 4.0, 4.95}) {
        chip.forget_changes();
        chip.set(Input::line, true);
        chip.run_ms(ms);
        chip.set(Input::line, false);
        chip.run_ms(60);
        CHECK(chip.changes().size() == 2);
    }
}
