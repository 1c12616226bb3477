// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/air_memo.hpp"
#include "core/show/edits.hpp"
#include "core/units/error.hpp"

#include <functional>
#include <optional>
#include <vector>

namespace gasp {

/// Cues of valves moved apart so that the receiver holds up.
struct Stagger {
    struct Shift {
        CueId cue;
        Micros by{0};
        bool operator==(const Shift&) const = default;
    };
    std::vector<Shift> shifts;  ///< in the order of the cues; those that move only
    double lowest_kpa_gauge = 0.0;
    Edit edit;  ///< of the show it was found for, as one step
};

/// The least shifts within each cue's freedom by which the receiver never falls below `limit_kpa_gauge`. A
/// strike tied to a mark stays, a cue without freedom too. Found by moving, again and again, the cue that
/// helps most, and then taking back of each shift what is not needed: good, not proven the best. `lowest`
/// gives the lowest pressure of a sequence; it is asked a bounded number of times. Error: why there is none:
/// none is needed, no cue may move, no shift suffices.
[[nodiscard]] Result<Stagger> stagger(const Show& show, const Sequence& sequence, double limit_kpa_gauge,
                                      const std::function<std::optional<double>(const Sequence&)>& lowest);

/// The same by the simulation.
[[nodiscard]] Result<Stagger> stagger(const Show& show, const Sequence& sequence, double limit_kpa_gauge,
                                      AirMemo& memo);

/// The smallest usual reservoir beside an actuator with which it strikes, every time, as if it were alone on
/// the plant.
struct PropReservoir {
    ActuatorId actuator;
    double litres = 0.0;
    std::optional<double> strike_before_s;  ///< the latest strike out without it; none: one does not come
    double strike_s = 0.0;                  ///< with it
    Edit edit;
};
/// Error: the actuator cannot be simulated, does not strike even alone, strikes so already, or no usual size
/// does; it was stopped.
[[nodiscard]] Result<PropReservoir> reservoir_beside(const Show& show, const Sequence& sequence,
                                                     ActuatorId actuator,
                                                     const std::function<bool()>& stopped = {});

}  // namespace gasp
