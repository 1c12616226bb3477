// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/power/current_curve.hpp"

#include <algorithm>
#include <functional>
#include <span>
#include <utility>
#include <vector>

namespace gasp {

/// By how much a load's current changes at a moment.
struct CurrentStep {
    Micros time{0};
    std::uint32_t load = 0;
    MicroAmps total = 0;    ///< surge and all
    MicroAmps steady = 0;   ///< of that, without the surge
    bool switched = false;  ///< on or off; else a surge is over
    bool on = false;        ///< from here on
};

/// Goes through the switchings and calls `take(CurrentStep)` for every change of a load's current, in order
/// of time: what is on at rest comes first, at 0. Surges end among the switchings where their time is over,
/// or with the load.
class CurrentWalk {
  public:
    explicit CurrentWalk(std::span<const LoadDraw> loads) : loads_(loads), states_(loads.size()) {}

    template <class Take>
    void run(std::span<const LoadSwitch> switches, Micros length, Take take) {
        for (std::uint32_t load = 0; load < loads_.size(); ++load) {
            if (loads_[load].on_at_rest) {
                states_[load].on = true;
                take(CurrentStep{Micros{0}, load, loads_[load].steady, loads_[load].steady, true, true});
            }
        }
        for (const LoadSwitch& event : switches) {
            if (event.time >= length) {
                break;
            }
            end_surges(event.time, take);
            if (states_[event.load].on != event.on) {
                take(turned(event));
            }
        }
        end_surges(length - Micros{1}, take);
    }

  private:
    using Ending = std::pair<Micros, std::uint32_t>;
    struct State {
        bool on = false;
        Micros surge_end{-1};  ///< negative: no surge is on
    };

    CurrentStep turned(const LoadSwitch& event) {
        const LoadDraw& load = loads_[event.load];
        State& state = states_[event.load];
        state.on = event.on;
        if (!event.on) {
            const MicroAmps surging = state.surge_end >= Micros{0} ? load.surge : 0;
            state.surge_end = Micros{-1};
            return {event.time, event.load, -load.steady - surging, -load.steady, true, false};
        }
        if (load.surge <= 0 || load.surge_time <= Micros{0}) {
            return {event.time, event.load, load.steady, load.steady, true, true};
        }
        state.surge_end = event.time + load.surge_time;
        const Ending ending{state.surge_end, event.load};
        endings_.insert(std::ranges::upper_bound(endings_, ending, std::greater{}), ending);
        return {event.time, event.load, load.steady + load.surge, load.steady, true, true};
    }

    template <class Take>
    void end_surges(Micros until, Take& take) {
        while (!endings_.empty() && endings_.back().first <= until) {
            const auto [time, load] = endings_.back();
            endings_.pop_back();
            if (states_[load].surge_end == time) {  // else it went off before, and perhaps on again
                states_[load].surge_end = Micros{-1};
                take(CurrentStep{time, load, -loads_[load].surge, 0, false, true});
            }
        }
    }

    std::span<const LoadDraw> loads_;
    std::vector<State> states_;
    std::vector<Ending> endings_;  ///< the earliest last; few loads surge at once, which no heap would repay
};

}  // namespace gasp
