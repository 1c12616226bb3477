// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/trigger.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

/// Tenths of a second, rounded up: a lockout that still holds never reads 0.0 s.
std::string tenths(Micros time) {
    const auto count = (time.count() + 99'999) / 100'000;
    return fmt::format("{}.{} s", count / 10, count % 10);
}

}  // namespace

TriggerAnswer TriggerGate::trigger(Micros now, std::optional<Micros> lockout) {
    const Micros remaining = lockout_remaining(now);
    if (running_ || remaining > Micros{0}) {
        ++refused_;
        return {false, remaining > Micros{0}
                           ? fmt::format("Trigger refused: locked out for another {}", tenths(remaining))
                           : "Trigger refused: a run is going on"};
    }
    ++taken_;
    running_ = true;
    held_at_.reset();
    locked_until_ = now + std::max(Micros{0}, lockout.value_or(Micros{0}));
    return {
        true,
        lockout ? "" : "The rig's sensor has no lockout: the next trigger is taken as soon as this run ends"};
}

void TriggerGate::run_began() {
    running_ = true;
}

void TriggerGate::run_ended() {
    running_ = false;
}

void TriggerGate::hold(Micros now) {
    if (!held_at_) {
        held_at_ = now;
    }
}

void TriggerGate::release(Micros now) {
    if (held_at_) {
        locked_until_ += now - *held_at_;
        held_at_.reset();
    }
}

void TriggerGate::reset() {
    *this = TriggerGate{};
}

Micros TriggerGate::lockout_remaining(Micros now) const {
    return taken_ == 0 ? Micros{0} : std::max(Micros{0}, locked_until_ - held_at_.value_or(now));
}

}  // namespace gasp
