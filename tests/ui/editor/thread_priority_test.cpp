// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/thread_priority.hpp"

#include "tests/support/catch.hpp"

#include <pthread.h>
#include <sched.h>
#include <sys/resource.h>
#include <unistd.h>

#include <thread>

using namespace gasp;

namespace {

struct Standing {
    int nice = 0;
    int policy = 0;
};

Standing standing() {
    Standing here;
    here.nice = ::getpriority(PRIO_PROCESS, static_cast<id_t>(::gettid()));
    sched_param parameters{};
    ::pthread_getschedparam(::pthread_self(), &here.policy, &parameters);
    return here;
}

/// Of a thread of its own that asks for something, and of one that it starts afterwards.
std::pair<Standing, Standing> after(void (*asked)()) {
    Standing own;
    Standing child;
    std::thread([&] {
        asked();
        own = standing();
        std::thread([&] { child = standing(); }).join();
    }).join();
    return {own, child};
}

}  // namespace

TEST_CASE("long work stands back with the threads it starts, and nobody else does") {
    const Standing before = standing();
    const auto [own, child] = after(&stand_back);
    CHECK(own.nice == 10);
    CHECK(child.nice == 10);
    CHECK(own.policy == before.policy);
    CHECK(standing().nice == before.nice);
}

TEST_CASE(
    "the thread of the sound device comes first where the system allows it, and stays as it was where not") {
    const Standing before = standing();
    const auto [own, child] = after(&serve_in_time);
    const bool in_time = own.policy == SCHED_RR;
    const bool first = own.nice == -11;
    const bool not_allowed = own.policy == before.policy && own.nice == before.nice;
    CHECK((in_time || first || not_allowed));
    CHECK(child.policy == own.policy);
    CHECK(standing().policy == before.policy);
    const auto [reader, helper] = after(&read_ahead);
    CHECK((reader.nice == -11 || reader.nice == before.nice));
    CHECK(helper.nice == reader.nice);
    if (::geteuid() == 0 && reader.nice == -11) {
        CHECK((in_time || first));
    }
}
