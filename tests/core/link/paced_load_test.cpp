// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/conversation.hpp"
#include "core/link/serial_port.hpp"
#include "tests/core/link/board_in_process.hpp"
#include "tests/core/link/image_for_link.hpp"
#include "tests/core/link/pty.hpp"
#include "tests/support/catch.hpp"

#include <poll.h>

#include <array>
#include <atomic>
#include <thread>

using namespace gasp;
using namespace gasp::testing;

namespace {

/// 10 bits a byte at 115200 baud.
constexpr double us_a_byte = 10.0 * 1e6 / 115200.0;

/// The board at the far end of a line of 115200 baud: every byte takes its time, both ways.
class PacedBoard {
  public:
    explicit PacedBoard(int line) : line_(line), thread_([this](std::stop_token stop) { serve(stop); }) {}

  private:
    void wait(std::size_t bytes) {
        // From when the line was free, so that what a sleep is late does not add up.
        free_ =
            std::max(free_, LinkClock::now()) +
            std::chrono::nanoseconds(static_cast<std::int64_t>(static_cast<double>(bytes) * us_a_byte * 1e3));
        std::this_thread::sleep_until(free_);
    }
    void serve(const std::stop_token& stop) {
        std::array<std::uint8_t, 256> bytes{};
        while (!stop.stop_requested()) {
            pollfd one{line_, POLLIN, 0};
            if (::poll(&one, 1, 20) <= 0) {
                continue;
            }
            const ssize_t count = ::read(line_, bytes.data(), bytes.size());
            if (count <= 0) {
                return;
            }
            const auto come = static_cast<std::size_t>(count);
            wait(come);
            (void)board_.write(std::span(bytes).first(come), {});
            while (!board_.to_host_.empty()) {
                const std::size_t given = board_.read(bytes, LinkClock::now()).value();
                wait(given);
                if (::write(line_, bytes.data(), given) != static_cast<ssize_t>(given)) {
                    return;
                }
            }
        }
    }

    int line_;
    BoardInProcess board_;
    Deadline free_ = LinkClock::now();
    std::jthread thread_;
};

}  // namespace

TEST_CASE(
    "a table of 2 KB is loaded, read back and compared within twice its time on a line of 115200 baud") {
    const std::string image = image_of_flashes(322);
    REQUIRE(image.size() >= 2000);
    const Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    const PacedBoard far(pty.board());
    Conversation board(*port);
    // Every byte of the table once there and once back.
    const double on_the_line_ms = 2.0 * static_cast<double>(image.size()) * us_a_byte / 1e3;
    double took_ms = 0.0;
    // A machine that is busy with other things may be late; the link is not.
    for (int time = 0; time < 5 && (time == 0 || took_ms > 2.0 * on_the_line_ms); ++time) {
        REQUIRE(board.load(image_of_flashes(10)));
        const auto report = board.load(image);
        REQUIRE(report);
        took_ms = static_cast<double>(report->took.count());
    }
    INFO(image.size() << " bytes in " << took_ms << " ms, " << on_the_line_ms << " ms on the line, "
                      << board.trouble().repeated << " repeated");
    CHECK(took_ms >= on_the_line_ms);  // else the line was none
    CHECK(took_ms <= 2.0 * on_the_line_ms);
    CHECK(board.read_image_back().value() == image);
}
