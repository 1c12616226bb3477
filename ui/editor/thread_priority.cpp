// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/thread_priority.hpp"

#include <pthread.h>
#include <sched.h>
#include <sys/resource.h>
#include <unistd.h>

namespace gasp {

namespace {

// What sound servers take for themselves (common practice, no source).
constexpr int first_nice = -11;
constexpr int last_nice = 10;

/// On Linux a thread's nice value is its own.
void be_nice(int value) {
    static_cast<void>(::setpriority(PRIO_PROCESS, static_cast<id_t>(::gettid()), value));
}

}  // namespace

void serve_in_time() {
    sched_param least{};
    least.sched_priority = ::sched_get_priority_min(SCHED_RR);
    if (::pthread_setschedparam(::pthread_self(), SCHED_RR, &least) != 0) {
        be_nice(first_nice);
    }
}

void read_ahead() {
    be_nice(first_nice);
}

void stand_back() {
    be_nice(last_nice);
}

}  // namespace gasp
