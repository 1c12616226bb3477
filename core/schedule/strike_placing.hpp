// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_run.hpp"
#include "core/show/show.hpp"

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The strike of a stroke: this share of its way, either way.
inline constexpr double strike_share = 0.95;

/// Why a figure does not strike when it is to.
enum class StrikeFault : std::uint8_t {
    none,
    before_start,     ///< its valve would have to switch before the sequence begins
    still_returning,  ///< it is not back at its end when its valve has to switch
    does_not_arrive,  ///< it stops short, or is sent back before
    not_known         ///< the simulation lacks a figure and no stroke time is stated
};

/// A cue that is placed by its strike.
struct PlacedStrike {
    CueId cue;
    ActuatorId actuator;
    Coil way = Coil::out;
    Micros wanted{0};            ///< when it is to strike
    Micros start{0};             ///< when its output is driven, before rounding to the tick
    std::optional<Micros> lead;  ///< from there to the strike
    bool stated = false;         ///< the lead is by the stated stroke time
    StrikeFault fault = StrikeFault::none;
    std::optional<Micros> earliest;  ///< where there is a fault: the first moment at which it could strike
    bool operator==(const PlacedStrike&) const = default;
};

/// Plays commands in order of time; nothing where that cannot be done.
using AirPlayer = std::function<std::optional<AirRun>(std::span<const StrokeCommand>, Micros length)>;

/// The start of every cue that is placed by its strike, found in rounds: all strokes are played together,
/// each start is moved by what its strike is off, until none moves further. So every strike meets the
/// pressure that is there after all others. In the order of the cues.
[[nodiscard]] std::vector<PlacedStrike> place_strikes(const Show& show, const Sequence& sequence,
                                                      const AirPlayer& play);

/// Whether any cue of it is placed by its strike.
[[nodiscard]] bool has_strikes(const Sequence& sequence);

/// The sequence with these cues placed by their starts instead, ties kept.
[[nodiscard]] Sequence placed(const Sequence& sequence, std::span<const PlacedStrike> strikes);

}  // namespace gasp
