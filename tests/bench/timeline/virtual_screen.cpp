// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/timeline/virtual_screen.hpp"

#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdlib>
#include <string>

namespace gasp {

VirtualScreen::VirtualScreen() {
    std::array<int, 2> ends{};
    if (pipe(ends.data()) != 0) {
        return;
    }
    server_ = fork();
    if (server_ == 0) {
        close(ends[0]);
        const std::string told = std::to_string(ends[1]);
        execlp("Xvfb", "Xvfb", "-displayfd", told.c_str(), "-screen", "0", "3840x2400x24", "-nolisten", "tcp",
               nullptr);
        _exit(127);
    }
    close(ends[1]);
    // The server writes its number once it answers.
    std::string number;
    char digit = 0;
    while (read(ends[0], &digit, 1) == 1 && digit != '\n') {
        number += digit;
    }
    close(ends[0]);
    if (!number.empty()) {
        setenv("DISPLAY", (":" + number).c_str(), 1);
        running_ = true;
    }
}

VirtualScreen::~VirtualScreen() {
    if (server_ > 0) {
        kill(server_, SIGTERM);
        waitpid(server_, nullptr, 0);
    }
}

}  // namespace gasp
