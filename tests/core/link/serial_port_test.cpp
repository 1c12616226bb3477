// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/serial_port.hpp"

#include "core/link/conversation.hpp"
#include "tests/core/link/pty.hpp"
#include "tests/support/catch.hpp"

#include <sys/stat.h>
#include <sys/wait.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <thread>

using namespace gasp;
using namespace gasp::testing;
using namespace std::chrono_literals;

namespace {

namespace fs = std::filesystem;

double seconds_since(Deadline begun) {
    return std::chrono::duration<double>(LinkClock::now() - begun).count();
}

}  // namespace

TEST_CASE("bytes pass a port as they are, both ways") {
    const Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    std::array<std::uint8_t, 256> all{};
    for (std::size_t byte = 0; byte < all.size(); ++byte) {
        all[byte] = static_cast<std::uint8_t>(byte);
    }
    REQUIRE(port->write(all, LinkClock::now() + 1s));
    std::array<std::uint8_t, 256> got{};
    REQUIRE(::read(pty.board(), got.data(), got.size()) == 256);
    CHECK(got == all);
    REQUIRE(::write(pty.board(), all.data(), all.size()) == 256);
    std::size_t come = 0;
    got = {};
    while (come < got.size()) {
        const auto count = port->read(std::span(got).subspan(come), LinkClock::now() + 1s);
        REQUIRE((count && *count > 0));
        come += *count;
    }
    CHECK(got == all);
}

TEST_CASE("a port that cannot be opened is told why") {
    CHECK(SerialPort::open("/dev/no-such-port").error().what == "there is no such port");
    CHECK(SerialPort::open("/dev/null/port").error().what == "there is no such port");
    CHECK(SerialPort::open("/dev/null").error().what == "this is no serial port");
    CHECK(SerialPort::open("/tmp").error().where == "/tmp");
    const Pty pty;
    const auto first = SerialPort::open(pty.path()).value();
    const auto second = SerialPort::open(pty.path());
    REQUIRE_FALSE(second);
    CHECK(second.error().what == "another program has this port open");
}

TEST_CASE("a port that is closed can be opened again") {
    const Pty pty;
    REQUIRE(SerialPort::open(pty.path()));
    CHECK(SerialPort::open(pty.path()));
}

TEST_CASE("a user who may not open a port is told which group to join") {
    const Pty pty;
    REQUIRE(::chmod(pty.path().c_str(), 0600) == 0);
    const pid_t child = ::fork();
    if (child == 0) {
        constexpr uid_t nobody = 65534;
        if (::getuid() == 0 && ::setuid(nobody) != 0) {
            ::_exit(3);
        }
        ::chmod(pty.path().c_str(), 0);  // where we are no root, but own it
        const auto port = SerialPort::open(pty.path());
        const bool told = !port && port.error().what == "you may not open this port" &&
                          port.error().remedy.find("usermod -aG ") != std::string::npos;
        ::_exit(told ? 0 : 1);
    }
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK((WIFEXITED(status) && WEXITSTATUS(status) == 0));
}

TEST_CASE("a board that says nothing is given up in time") {
    const Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    Conversation board(*port);
    const Deadline begun = LinkClock::now();
    const auto identity = board.identify();
    REQUIRE_FALSE(identity);
    CHECK(identity.error().what == "nothing answers on this port");
    CHECK(board.lost());
    CHECK(seconds_since(begun) > 2.5);
    CHECK(seconds_since(begun) < 5.0);
}

TEST_CASE("a wait ends as soon as it is to stop") {
    const Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    std::stop_source stop;
    Conversation board(*port, stop.get_token());
    std::jthread stopper([&] {
        std::this_thread::sleep_for(200ms);
        stop.request_stop();
    });
    const Deadline begun = LinkClock::now();
    CHECK(board.identify().error().what == "stopped");
    CHECK(seconds_since(begun) < 1.0);
    CHECK_FALSE(board.lost());
}

TEST_CASE("a board that is unplugged is said to be, at once") {
    Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    Conversation board(*port);
    std::jthread hand([&] {
        std::this_thread::sleep_for(200ms);
        pty.unplug();
    });
    const Deadline begun = LinkClock::now();
    const auto identity = board.identify();
    REQUIRE_FALSE(identity);
    CHECK(identity.error().what == "the board was unplugged, or its port went away");
    CHECK(seconds_since(begun) < 1.0);
    CHECK(board.lost());
    CHECK(board.status().error().what == "the board was unplugged, or its port went away");
}

TEST_CASE("a port that takes no bytes is given up in time") {
    const Pty pty;
    const auto port = SerialPort::open(pty.path()).value();
    const std::vector<std::uint8_t> much(1 << 20);
    const Deadline begun = LinkClock::now();
    CHECK(port->write(much, begun + 300ms).error().what == "the port takes no more bytes");
    CHECK(seconds_since(begun) < 1.0);
}

TEST_CASE("ports are listed with what is plugged in, those of chips that are not there left out") {
    char base[] = "/tmp/gaspworks-ports-XXXXXX";
    const fs::path root = ::mkdtemp(base);
    const auto port = [&](const std::string& name, const char* type) {
        fs::create_directories(root / "sys/class/tty" / name / "device");
        std::ofstream(root / "sys/class/tty" / name / "type") << type << "\n";
    };
    port("ttyS0", "4");
    port("ttyS1", "0");
    port("ttyUSB10", "0");
    fs::remove(root / "sys/class/tty/ttyUSB10/type");
    fs::create_directories(root / "sys/class/tty/ttyACM0/device");
    fs::create_directories(root / "sys/class/tty/tty1");
    fs::create_directories(root / "dev/serial/by-id");
    fs::create_symlink("../../ttyACM0", root / "dev/serial/by-id/usb-Marsh_board_7-if00");
    CHECK(list_ports(root) == std::vector<PortInfo>{{root / "dev/ttyACM0", "usb-Marsh board 7-if00"},
                                                    {root / "dev/ttyS0", ""},
                                                    {root / "dev/ttyUSB10", ""}});
    fs::remove_all(root);
    CHECK(list_ports(root).empty());
}
