// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"

#include "tests/core/link/board_in_process.hpp"
#include "tests/core/link/image_for_link.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::testing;
using namespace std::chrono_literals;

TEST_CASE("a board says who it is, and that it has no table") {
    BoardInProcess line;
    Conversation board(line);
    const BoardIdentity identity = board.identify().value();
    CHECK(identity.chip == "host");
    CHECK(identity.outputs == 32);
    CHECK(identity.image != 1);
    CHECK(identity.store == line.store().size());
    CHECK(board.status().value().state == BoardState::no_image);
    CHECK(board.read_image_back().error().remedy == "Load the table");
}

TEST_CASE("a table is loaded, compared and read back") {
    BoardInProcess line;
    Conversation board(line);
    const std::string image = image_of_flashes(330);
    std::size_t last = 0;
    const LoadReport report = board
                                  .load(image,
                                        [&](std::size_t done, std::size_t all) {
                                            CHECK(done >= last);
                                            CHECK(done <= all);
                                            last = done;
                                        })
                                  .value();
    CHECK(report.bytes == image.size());
    CHECK(report.resumed_at == 0);
    CHECK(last == 2 * image.size());
    CHECK(board.read_image_back().value() == image);
    const BoardIdentity identity = board.identify().value();
    CHECK(identity.image == 1);
    CHECK(identity.image_bytes == image.size());
    CHECK(identity.board_id == 5);
    CHECK(identity.revision == 77);
    CHECK(board.status().value().state == BoardState::ready);
}

TEST_CASE("a load that is broken off goes on where it was, even after a power cut") {
    BoardInProcess line;
    const std::string image = image_of_flashes(330);
    std::stop_source stop;
    Conversation first(line, stop.get_token());
    const auto broken = first.load(image, [&](std::size_t done, std::size_t) {
        if (done > 1000) {
            stop.request_stop();
        }
    });
    REQUIRE_FALSE(broken);
    CHECK(broken.error().what == "stopped");
    line.power_cycle();
    Conversation second(line);
    const LoadReport report = second.load(image).value();
    CHECK(report.resumed_at >= 1000);
    CHECK(second.read_image_back().value() == image);
}

TEST_CASE("another table is loaded from its beginning") {
    BoardInProcess line;
    Conversation board(line);
    REQUIRE(board.load(image_of_flashes(330)));
    CHECK(board.load(image_of_flashes(100)).value().resumed_at == 0);
    CHECK(board.read_image_back().value() == image_of_flashes(100));
}

TEST_CASE("what a board has no room for is not sent, and said by how much") {
    BoardInProcess line;
    Conversation board(line);
    const std::string image = image_of_flashes(200'000);
    const Error error = board.load(image).error();
    CHECK(error.what == "the table takes " + std::to_string(image.size()) +
                            " bytes and the board has room for " + std::to_string(line.store().size()) +
                            ": " + std::to_string(image.size() - line.store().size()) + " too many");
    CHECK(line.store()[0] == 0xFF);
    CHECK_FALSE(board.load("no image"));
}

TEST_CASE("an output is driven while it is held, and drops by itself") {
    BoardInProcess line;
    Conversation board(line);
    REQUIRE(board.load(image_of_flashes(10)));
    CHECK(board.hold(1).error().what == "the board refuses: it is not armed");
    REQUIRE(board.arm());
    REQUIRE(board.hold(1));
    CHECK(line.levels() == 2);
    line.pass(400ms);
    REQUIRE(board.hold(1));
    line.pass(400ms);
    CHECK(line.levels() == 2);
    line.pass(150ms);
    CHECK(line.levels() == 0);
    REQUIRE(board.hold(0));
    CHECK(line.levels() == 1);
    REQUIRE(board.let_go());
    CHECK(line.levels() == 0);
    CHECK_FALSE(board.hold(7));
}

TEST_CASE("arming lapses when the link is silent") {
    BoardInProcess line;
    Conversation board(line);
    REQUIRE(board.load(image_of_flashes(10)));
    REQUIRE(board.arm());
    CHECK(board.armed());
    line.pass(2100ms);
    CHECK(board.hold(0).error().what == "the board refuses: it is not armed");
    CHECK_FALSE(board.armed());
    REQUIRE(board.arm());
    REQUIRE(board.disarm());
    CHECK_FALSE(board.armed());
}

TEST_CASE("a sequence is started, followed, stopped, and the board brought back") {
    BoardInProcess line;
    Conversation board(line);
    REQUIRE(board.load(image_of_flashes(300)));
    REQUIRE(board.arm());
    REQUIRE(board.run(0));
    line.pass(5ms);
    const BoardStatus early = board.status().value();
    CHECK(early.state == BoardState::running_by_hand);
    CHECK(early.sequence == 0);
    line.pass(200ms);
    const BoardStatus later = board.status().value();
    CHECK(later.tick > early.tick + 190);
    CHECK(later.run_clock_us == early.run_clock_us);
    REQUIRE(board.stop());
    CHECK(line.levels() == 0);
    CHECK(board.status().value().state == BoardState::stopped_by_link);
    CHECK_FALSE(board.armed());
    REQUIRE(board.arm());
    REQUIRE(board.go_on());
    REQUIRE(board.disarm());
    CHECK(board.status().value().state == BoardState::ready);
}

TEST_CASE("the log of a night is read whole and cleared") {
    BoardInProcess line;
    Conversation board(line);
    REQUIRE(board.load(image_of_flashes(2, SequenceKind::triggered)));
    REQUIRE(board.clear_log());
    for (int trigger = 0; trigger < 40; ++trigger) {
        line.trip();
        line.pass(1s);
    }
    const std::vector<LogEntry> log = board.read_log().value();
    REQUIRE(log.size() >= 40);
    CHECK(std::ranges::count(log, LogKind::trigger, &LogEntry::kind) == 40);
    CHECK(words(log.back()) == "trigger: sequence 1");
    CHECK(board.status().value().triggers == 40);
    REQUIRE(board.clear_log());
    CHECK(board.status().value().triggers == 0);
    CHECK(board.read_log().value().size() <= 1);
}

TEST_CASE("the way to the board is measured, and its clock placed on ours") {
    BoardInProcess line;
    Conversation board(line);
    const LinkLatency latency = board.measure_latency(20).value();
    CHECK(latency.answers == 20);
    CHECK(latency.least <= latency.median);
    CHECK(latency.median <= latency.most);
    CHECK(latency.host_time(latency.board_us) == latency.host);
    CHECK(latency.host_time(latency.board_us + 1000) - latency.host == 1ms);
    CHECK(latency.host_time(latency.board_us - 1000) - latency.host == -1ms);
}
