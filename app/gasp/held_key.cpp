// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/held_key.hpp"

#include <poll.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <span>
#include <utility>

namespace gasp {

namespace {

constexpr std::chrono::milliseconds longest_gap{700};

}  // namespace

Result<HeldKey> HeldKey::take() {
    termios line{};
    if (::isatty(STDIN_FILENO) == 0 || ::tcgetattr(STDIN_FILENO, &line) != 0) {
        return fail("there is no key to hold: standard input is no terminal", {}, "Give --for MS");
    }
    HeldKey key(line);
    line.c_lflag &= ~static_cast<tcflag_t>(ICANON | ECHO);
    line.c_cc[VMIN] = 0;
    line.c_cc[VTIME] = 0;
    ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &line);
    return key;
}

HeldKey::HeldKey(HeldKey&& other) noexcept
    : before_(std::exchange(other.before_, std::nullopt)), last_(other.last_), ended_(other.ended_) {}

HeldKey::~HeldKey() {
    if (before_) {
        ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &*before_);
    }
}

bool HeldKey::held(std::chrono::milliseconds look) {
    pollfd input{STDIN_FILENO, POLLIN, 0};
    if (::poll(&input, 1, static_cast<int>(look.count())) > 0) {
        std::array<char, 64> keys{};
        const ssize_t count = ::read(STDIN_FILENO, keys.data(), keys.size());
        const auto pressed = std::span(keys).first(static_cast<std::size_t>(std::max<ssize_t>(count, 0)));
        ended_ = ended_ || count <= 0 || std::ranges::count(pressed, 'q') > 0;
        if (std::ranges::count(pressed, '\n') > 0) {
            last_ = std::chrono::steady_clock::now();
        }
    }
    return !ended_ && last_ && std::chrono::steady_clock::now() - *last_ < longest_gap;
}

}  // namespace gasp
