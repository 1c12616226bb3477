// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/night_plan.hpp"
#include "core/show/rig.hpp"
#include "core/show/sequence.hpp"

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// The document: a plain value, compared and copied whole.
struct Show {
    std::string name;
    Rig rig;
    std::vector<Sequence> sequences;
    NightPlan night;
    std::uint32_t next_id = 1;  ///< above every id in use
    std::string extra;
    bool operator==(const Show&) const = default;
};

/// Null when there is none of that id.
[[nodiscard]] const Actuator* find(const Show& show, ActuatorId id);
[[nodiscard]] const Channel* find(const Show& show, ChannelId id);
[[nodiscard]] const Board* find(const Show& show, BoardId id);
[[nodiscard]] const Supply* find(const Show& show, SupplyId id);
[[nodiscard]] const Sequence* find(const Show& show, SequenceId id);

/// The tick a channel's events are rounded to: its board's, or 1 ms where that is not given.
[[nodiscard]] Micros tick_of(const Show& show, const Channel& channel);

/// The valve channel that sends this actuator out, and the one that sends it back; null where there is none.
[[nodiscard]] const Channel* channel_of(const Show& show, ActuatorId actuator, Coil coil);

/// A new show: one triggered sequence of 10 s and nothing in the rig.
[[nodiscard]] Show empty_show();

}  // namespace gasp
