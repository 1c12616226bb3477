// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/trigger.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

using namespace gasp;
using namespace std::chrono_literals;

TEST_CASE("the first trigger is taken, the next ones wait for the run and the lockout", "[trigger]") {
    TriggerGate gate;
    CHECK(gate.lockout_remaining(100s) == 0s);
    const TriggerAnswer first = gate.trigger(100s, 12s);
    CHECK(first.taken);
    CHECK(first.said.empty());
    CHECK(gate.running());

    const TriggerAnswer early = gate.trigger(104'800ms, 12s);
    CHECK_FALSE(early.taken);
    CHECK(early.said == "Trigger refused: locked out for another 7.2 s");

    gate.run_ended();
    CHECK_FALSE(gate.trigger(111'999'999us, 12s).taken);
    CHECK(gate.lockout_remaining(112s) == 0s);
    CHECK(gate.trigger(112s, 12s).taken);
    CHECK(gate.taken() == 2);
    CHECK(gate.refused() == 2);
}

TEST_CASE("a run that outlasts its lockout still holds triggers off", "[trigger]") {
    TriggerGate gate;
    REQUIRE(gate.trigger(0s, 2s).taken);
    const TriggerAnswer during = gate.trigger(3s, 2s);
    CHECK_FALSE(during.taken);
    CHECK(during.said == "Trigger refused: a run is going on");
    gate.run_ended();
    CHECK(gate.trigger(4s, 2s).taken);
}

TEST_CASE("a sensor without a lockout says so", "[trigger]") {
    TriggerGate gate;
    const TriggerAnswer answer = gate.trigger(5s, std::nullopt);
    CHECK(answer.taken);
    CHECK(answer.said.find("no lockout") != std::string::npos);
    CHECK_FALSE(gate.trigger(6s, std::nullopt).taken);
    gate.run_ended();
    CHECK(gate.trigger(6s, std::nullopt).taken);
}

TEST_CASE("a run by hand holds triggers off and starts no lockout", "[trigger]") {
    TriggerGate gate;
    gate.run_began();
    CHECK_FALSE(gate.trigger(1s, 10s).taken);
    gate.run_ended();
    CHECK(gate.lockout_remaining(1s) == 0s);
    CHECK(gate.trigger(1s, 10s).taken);
}

TEST_CASE("the lockout stands still while the run is paused", "[trigger]") {
    TriggerGate gate;
    REQUIRE(gate.trigger(0s, 10s).taken);
    gate.hold(4s);
    CHECK(gate.lockout_remaining(60s) == 6s);
    gate.release(60s);
    CHECK(gate.lockout_remaining(61s) == 5s);
    gate.reset();
    CHECK(gate.lockout_remaining(61s) == 0s);
    CHECK(gate.refused() == 0);
    CHECK(gate.trigger(61s, 10s).taken);
}

TEST_CASE("a lockout that still holds never reads 0.0 s", "[trigger]") {
    TriggerGate gate;
    REQUIRE(gate.trigger(0s, 1s).taken);
    CHECK(gate.trigger(999'999us, 1s).said == "Trigger refused: locked out for another 0.1 s");
}

TEST_CASE("whatever the triggers, taken ones are never closer than the lockout", "[trigger]") {
    REQUIRE(rc::check([] {
        TriggerGate gate;
        Micros now{0};
        std::optional<Micros> last;
        int fired = 0;
        for (const int step : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 3'000'000))) {
            now += Micros{step};
            gate.run_ended();
            ++fired;
            if (gate.trigger(now, 2s).taken) {
                RC_ASSERT(now - last.value_or(now - 2s) >= 2s);
                last = now;
            }
        }
        RC_ASSERT(gate.taken() + gate.refused() == fired);
    }));
}
