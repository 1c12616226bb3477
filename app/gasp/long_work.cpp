// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "app/gasp/long_work.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <csignal>
#include <cstdio>

namespace gasp {

namespace {

std::atomic<bool> stopped{false};
static_assert(std::atomic<bool>::is_always_lock_free, "a signal handler may set it");

extern "C" void stop_work(int) {
    stopped = true;
    std::signal(SIGINT, SIG_DFL);
}

}  // namespace

LongWork::LongWork(std::string_view name) : name_(name), shown_(::isatty(STDERR_FILENO) == 1) {
    stopped = false;
    std::signal(SIGINT, stop_work);
}

LongWork::~LongWork() {
    std::signal(SIGINT, SIG_DFL);
    if (percent_ >= 0) {
        fmt::print(stderr, "\r{:{}}\r", "", name_.size() + std::string_view(": 100 %").size());
        std::fflush(stderr);
    }
}

const std::atomic<bool>& LongWork::stop() const {
    return stopped;
}

std::function<void(double)> LongWork::progress() {
    return [this](double share) {
        const int percent = static_cast<int>(100.0 * share);
        if (shown_ && percent != percent_) {
            percent_ = percent;
            fmt::print(stderr, "\r{}: {:3} %", name_, percent);
            std::fflush(stderr);
        }
    };
}

}  // namespace gasp
