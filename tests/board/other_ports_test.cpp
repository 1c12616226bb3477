// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/figure.hpp"
#include "tests/board/link_client.hpp"
#include "tests/board/process.hpp"
#include "tests/support/catch.hpp"

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>
#include <thread>

using namespace gasp::board_test;

namespace {

/// A change of the outputs as the ports to host and Cortex-M3 tell it: their clock, and all levels.
struct Change {
    double us = 0.0;
    std::uint32_t levels = 0;
};

std::vector<Change> changes_in(const std::string& trace, int base_of_time) {
    std::vector<Change> changes;
    std::istringstream lines(trace);
    for (std::string time, levels; lines >> time >> levels;) {
        if (lines.peek() != '\n') {
            break;  // cut short
        }
        changes.push_back({static_cast<double>(std::stoull(time, nullptr, base_of_time)),
                           static_cast<std::uint32_t>(std::stoul(levels, nullptr, 16))});
    }
    return changes;
}

/// What all outputs are after each tick in which any of them changes.
std::map<std::uint32_t, std::uint32_t> levels_of(const TestSequence& sequence) {
    std::map<std::uint32_t, std::uint32_t> levels;
    std::uint32_t now = 0;
    for (const TestEvent& event : sequence.events) {
        now = event.level != 0 ? now | 1U << event.output : now & ~(1U << event.output);
        levels[event.tick] = now;
    }
    return levels;
}

/// Compares a run that begins with changes[first]; how late its changes are against that, at the most.
double check_run(const std::vector<Change>& changes, std::size_t first, const TestSequence& sequence) {
    const auto expected = levels_of(sequence);
    REQUIRE(changes.size() >= first + expected.size());
    const double zero = changes[first].us - expected.begin()->first * 1000.0;
    double latest = 0.0;
    std::size_t at = first;
    for (const auto& [tick, levels] : expected) {
        CHECK(changes[at].levels == levels);
        latest = std::max(latest, std::abs(changes[at].us - zero - tick * 1000.0));
        ++at;
    }
    return latest;
}

std::string temporary(const std::string& name) {
    return (std::filesystem::temp_directory_path() / ("gaspworks-" + std::to_string(getpid()) + "-" + name))
        .string();
}

std::string file_of(const std::string& name, const Bytes& bytes) {
    std::string path = temporary(name);
    std::ofstream file(path, std::ios::binary);
    file.write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
    return path;
}

std::string text_of(const std::string& path) {
    std::ifstream file(path);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<std::string> qemu(std::vector<std::string> more) {
    std::vector<std::string> command{"qemu-system-arm", "-M",   "lm3s6965evb", "-display",         "none",
                                     "-monitor",        "none", "-kernel",     GASPWORKS_BOARD_ARM};
    command.insert(command.end(), more.begin(), more.end());
    return command;
}

/// The trace, once it holds so many changes.
std::vector<Change> wait_for(const std::string& trace, std::size_t changes) {
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(100);
    for (;;) {
        auto found = changes_in(text_of(trace), 16);
        if (found.size() >= changes || std::chrono::steady_clock::now() > end) {
            return found;
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(50));
    }
}

}  // namespace

TEST_CASE("The same player in a process of the host plays a table to the microsecond") {
    const TestImage image = image_of(busy_sequence(300, 37, 8));
    const std::string file = file_of("host.bin", image.bytes());
    const Process board(
        {GASPWORKS_HOST_BOARD, "--image", file, "--trace", "-", "--fast", "13", "--trigger", "0.3333"});
    const auto changes = changes_in(board.output(), 10);
    std::filesystem::remove(file);
    REQUIRE(changes.size() == levels_of(image.sequences[0]).size() + 1);  // and the rest at power-up
    CHECK(changes[1].us == 335'300.0);
    CHECK(check_run(changes, 1, image.sequences[0]) == 0.0);
}

TEST_CASE("The same player on a Cortex-M3 in QEMU plays a table by its own clock") {
    TestImage image = image_of(busy_sequence(200, 11, 8));
    image.sequences[0].kind = Kind::idle;
    const std::string file = file_of("arm.bin", image.bytes());
    const std::string trace = temporary("arm.trace");
    const std::size_t changes = levels_of(image.sequences[0]).size();
    std::vector<Change> seen;
    {
        const Process board(
            qemu({"-icount", "shift=4,sleep=off", "-serial", "null", "-serial", "file:" + trace, "-device",
                  "loader,file=" + file + ",addr=0x20008000,force-raw=on"}));
        seen = wait_for(trace, 2 * changes + 1);
    }
    std::filesystem::remove(file);
    std::filesystem::remove(trace);
    const double late =
        std::max(check_run(seen, 1, image.sequences[0]), check_run(seen, 1 + changes, image.sequences[0]));
    CHECK(late < 200.0);
    figure("Cortex-M3 in QEMU: {} changes, at most {:.0f} us from the table by the board's own clock",
           2 * changes, late);
}

TEST_CASE("The link of the Cortex-M3 port loads a table and runs it") {
    const TestImage image = image_of(busy_sequence(60, 5, 8));
    const Bytes bytes = image.bytes();
    const std::string trace = temporary("arm-link.trace");
    std::vector<Change> seen;
    {
        const Process board(qemu({"-serial", "stdio", "-serial", "file:" + trace}));
        std::uint8_t sequence = 0;
        const auto ask = [&](Ask type, const Bytes& payload) {
            const Bytes request = frame_of(1, static_cast<std::uint8_t>(type), ++sequence, payload);
            Bytes line;
            for (int silent = 0; line.empty() || line.back() != 0;) {
                const auto more = board.read(silent == 0 ? 0 : 1000);
                line.insert(line.end(), more.begin(), more.end());
                const Bytes answer = frame_in(line);
                if (answer.size() > 2 && answer[2] != sequence) {
                    line.clear();           // to a request that was sent twice
                } else if (more.empty()) {  // at first, or the machine was not up yet
                    REQUIRE(silent++ < 30);
                    board.write(request);
                }
            }
            Bytes frame = frame_in(line);
            REQUIRE(frame.size() >= 4);
            REQUIRE(frame[3] == 0);
            return Bytes(frame.begin() + 4, frame.end());
        };
        Bytes whole = u32_bytes(static_cast<std::uint32_t>(bytes.size()));
        whole.insert(whole.end(), bytes.end() - 4, bytes.end());
        ask(Ask::begin, whole);
        for (std::size_t at = 0; at < bytes.size(); at += 128) {
            Bytes chunk = u32_bytes(static_cast<std::uint32_t>(at));
            const auto end = std::min(at + 128, bytes.size());
            chunk.insert(chunk.end(), bytes.begin() + static_cast<std::ptrdiff_t>(at),
                         bytes.begin() + static_cast<std::ptrdiff_t>(end));
            ask(Ask::chunk, chunk);
        }
        ask(Ask::commit, whole);
        Bytes run = ask(Ask::arm, {});
        run.push_back(0);
        ask(Ask::run, run);
        while (ask(Ask::status, {})[status::state] != 2) {
        }
        seen = wait_for(trace, levels_of(image.sequences[0]).size() + 1);
    }
    std::filesystem::remove(trace);
    const auto first = static_cast<std::size_t>(
        std::ranges::find_if(seen, [](const Change& change) { return change.levels != 0; }) - seen.begin());
    check_run(seen, first,
              image.sequences[0]);  // its order; in real time QEMU's clock is not to be measured by
}
