// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/link/serial_port.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <grp.h>
#include <poll.h>
#include <sys/file.h>
#include <sys/ioctl.h>
#include <sys/stat.h>
#include <termios.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>

namespace gasp {

namespace {

/// The group that may use a port, on Debian "dialout".
std::string group_of(const std::string& path) {
    struct stat status {};
    const struct group* group = ::stat(path.c_str(), &status) == 0 ? ::getgrgid(status.st_gid) : nullptr;
    return group != nullptr && std::string_view(group->gr_name) != "root" ? group->gr_name : "dialout";
}

tl::unexpected<Error> cannot_open(const std::string& path, int error) {
    switch (error) {
        case ENOENT:
        case ENOTDIR:
        case ENXIO:
        case ENODEV:
            return fail("there is no such port", path,
                        "Plug the board in, and choose one of the ports listed");
        case EACCES:
        case EPERM:
            return fail("you may not open this port", path,
                        fmt::format("Join the group \"{0}\" (sudo usermod -aG {0} $USER) and log in again",
                                    group_of(path)));
        case EBUSY:
        case EWOULDBLOCK:
            return fail("another program has this port open", path, "Close it there");
        default:
            return fail(fmt::format("the port cannot be opened: {}", std::strerror(error)), path,
                        "Choose one of the ports listed");
    }
}

int ms_until(Deadline until) {
    const auto left = std::chrono::ceil<std::chrono::milliseconds>(until - LinkClock::now()).count();
    return static_cast<int>(std::clamp<std::int64_t>(left, 0, 60'000));
}

/// Waits until the file can be read or written, or the deadline is over: its poll(2) events.
short wait_for(int file, short events, Deadline until) {
    pollfd one{file, events, 0};
    while (::poll(&one, 1, ms_until(until)) < 0 && errno == EINTR) {
    }
    return one.revents;
}

}  // namespace

Result<std::unique_ptr<SerialPort>> SerialPort::open(const std::string& path) {
    const int file = ::open(path.c_str(), O_RDWR | O_NOCTTY | O_NONBLOCK | O_CLOEXEC);
    if (file < 0) {
        return cannot_open(path, errno);
    }
    std::unique_ptr<SerialPort> port(new SerialPort(file, path));
    if (::isatty(file) == 0) {
        return fail("this is no serial port", path, "Choose one of the ports listed");
    }
    if (::flock(file, LOCK_EX | LOCK_NB) != 0) {
        return cannot_open(path, errno);
    }
    return port->settle().map([&] { return std::move(port); });
}

Result<void> SerialPort::settle() const {
    termios line{};
    if (::tcgetattr(file_, &line) != 0) {
        return cannot_open(path_, errno);
    }
    ::cfmakeraw(&line);
    line.c_cflag |= CREAD | CLOCAL;
    line.c_cflag &= ~static_cast<tcflag_t>(CSTOPB | CRTSCTS | HUPCL);  // closing it resets no board
    line.c_cc[VMIN] = 0;
    line.c_cc[VTIME] = 0;
    ::cfsetspeed(&line, B115200);
    if (::tcsetattr(file_, TCSANOW, &line) != 0) {
        return cannot_open(path_, errno);
    }
    ::ioctl(file_, TIOCEXCL);  // for programs that do not ask for the lock; a port without it has the lock
    ::tcflush(file_, TCIOFLUSH);
    return {};
}

SerialPort::~SerialPort() {
    ::ioctl(file_, TIOCNXCL);
    ::close(file_);
}

tl::unexpected<Error> SerialPort::gone() const {
    return fail("the board was unplugged, or its port went away", path_,
                "Plug it in and connect again; a load goes on where it was");
}

Result<std::size_t> SerialPort::read(std::span<std::uint8_t> into, Deadline until) {
    const short events = wait_for(file_, POLLIN, until);
    if (events == 0) {
        return 0;
    }
    const ssize_t count = ::read(file_, into.data(), into.size());
    if (count > 0) {
        return static_cast<std::size_t>(count);
    }
    const bool nothing_yet = count < 0 && (errno == EAGAIN || errno == EINTR);
    if (!nothing_yet || (events & (POLLHUP | POLLERR | POLLNVAL)) != 0) {
        return gone();
    }
    return 0;
}

Result<void> SerialPort::write(std::span<const std::uint8_t> bytes, Deadline until) {
    while (!bytes.empty()) {
        const ssize_t count = ::write(file_, bytes.data(), bytes.size());
        if (count > 0) {
            bytes = bytes.subspan(static_cast<std::size_t>(count));
            continue;
        }
        if (count < 0 && errno != EAGAIN && errno != EINTR) {
            return gone();
        }
        if (LinkClock::now() >= until) {
            return fail("the port takes no more bytes", path_,
                        "Unplug the board, plug it in and connect again");
        }
        wait_for(file_, POLLOUT, until);
    }
    return {};
}

}  // namespace gasp
