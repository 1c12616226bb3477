// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <optional>
#include <string>

namespace gasp {

/// What becomes of a trigger: a run begins, or it is refused; and the sentence to show, which may be empty.
struct TriggerAnswer {
    bool taken = false;
    std::string said;
};

/// The player's rule for triggers: one is taken when no run is going on and the lockout, which counts from
/// the start of the last triggered run, is over. It reads no clock: every call is given the time of one
/// steady clock, never stepping back.
class TriggerGate {
  public:
    /// `lockout` is the rig's; empty: not given, then only the run itself holds triggers off, and the answer
    /// says so.
    TriggerAnswer trigger(Micros now, std::optional<Micros> lockout);

    void run_began();  ///< by hand: triggers are held off, no lockout counts
    void run_ended();

    /// Between them the lockout stands still, as a paused run does.
    void hold(Micros now);
    void release(Micros now);

    void reset();  ///< nothing runs, nothing is locked out, the counts are 0

    [[nodiscard]] bool running() const { return running_; }
    [[nodiscard]] Micros lockout_remaining(Micros now) const;
    [[nodiscard]] int taken() const { return taken_; }
    [[nodiscard]] int refused() const { return refused_; }

  private:
    Micros locked_until_{0};
    std::optional<Micros> held_at_;
    bool running_ = false;
    int taken_ = 0;
    int refused_ = 0;
};

}  // namespace gasp
