// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/air_curves.hpp"
#include "core/air/run/stroke_command.hpp"
#include "core/show/show.hpp"
#include "core/units/time.hpp"

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// A corner of an actuator's travel: `share` is 0 fully back, 1 fully out.
struct TravelPoint {
    Micros time{0};
    double share = 0.0;
    bool operator==(const TravelPoint&) const = default;
};

/// Where an actuator stands over a sequence: straight lines between the points, level before the first (which
/// is at 0) and after the last. Two points of one time are a jump, taken where a stroke time is blank.
struct Travel {
    std::vector<TravelPoint> points;
    bool out_stated = false;  ///< Motion has a time for this way; without it the way is drawn as a jump
    bool back_stated = false;
    bool operator==(const Travel&) const = default;
};

/// The travel by the *stated* stroke times, not by a simulation. A stroke begins when its valve has shifted
/// (the opening delay; the closing delay where a one-coil valve lets go; 0 where blank) and ends, full
/// length, the stated time after the coil switched. A stroke cut short by the next one turns where it stands
/// and goes at the speed of the full stroke. `commands` are in order of time; those of other actuators are
/// passed over. O(commands).
[[nodiscard]] Travel travel(const Actuator& actuator, std::span<const StrokeCommand> commands,
                            bool out_at_start = false);

/// Whether the figure stands out while every channel rests: its valve hangs on a normally closed contact.
[[nodiscard]] bool rests_out(const Show& show, const Actuator& actuator);

/// 0..1; at a jump, where it lands. O(log points).
[[nodiscard]] double share_at(const Travel& travel, Micros time);

/// The same as a curve of straight pieces, which is drawn as a simulated one is.
[[nodiscard]] MotionCurve motion_of(const Travel& travel);

/// From the coil switching to `share` (0..1) of a full stroke, by the stated stroke time; none where that is
/// blank.
[[nodiscard]] std::optional<Micros> stated_lead(const Actuator& actuator, Coil way, double share);

}  // namespace gasp
