// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <sys/types.h>
#include <sys/wait.h>
#include <unistd.h>

#include <csignal>

namespace gasp::testing {

/// Starts a process that does `work` and ends with its result, and gives its number.
template <class Work>
pid_t start_child(const Work& work) {
    const pid_t child = ::fork();
    if (child == 0) {
        ::_exit(work() ? 0 : 1);
    }
    return child;
}

/// Whether a child's work gave true.
inline bool ended_well(pid_t child) {
    int status = 0;
    return ::waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

inline void kill_at_once(pid_t child) {
    ::kill(child, SIGKILL);
    ::waitpid(child, nullptr, 0);
}

/// The user nobody, where the process is root's; else nothing: whom permissions bind.
inline bool become_ordinary() {
    constexpr uid_t nobody = 65534;
    return ::getuid() != 0 || (::setgid(nobody) == 0 && ::setuid(nobody) == 0);
}

}  // namespace gasp::testing
