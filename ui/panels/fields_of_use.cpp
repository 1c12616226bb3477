// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_fields.hpp"

#include <algorithm>
#include <array>

namespace gasp {
namespace {

bool is_of_use(const Linkage& linkage, std::string_view field) {
    static constexpr std::array<std::string_view, 4> of_lever{"foot_mm", "pin_mm", "closed_mm", "arm_deg"};
    static constexpr std::array<std::string_view, 5> of_swing_arms{"second_arm_mm", "coupler_mm", "ground_mm",
                                                                   "ground_deg", "mass_percent"};
    const LinkageKind kind = linkage.kind;
    const bool by_pins = kind == LinkageKind::lever || kind == LinkageKind::swing_arms;
    if (field == "points_mm_deg") {
        return kind == LinkageKind::table;
    }
    if (field == "turn" || std::ranges::find(of_lever, field) != of_lever.end()) {
        return by_pins;
    }
    if (std::ranges::find(of_swing_arms, field) != of_swing_arms.end()) {
        return kind == LinkageKind::swing_arms;
    }
    return field == "kind" || kind != LinkageKind::direct;
}

}  // namespace

bool is_of_use(const Show& show, Part part, std::string_view key) {
    constexpr std::string_view of_linkage = "linkage.";
    if (part.kind == PartKind::actuator && key.starts_with(of_linkage)) {
        const Actuator* actuator = find(show, ActuatorId{part.id});
        return actuator != nullptr && is_of_use(actuator->linkage, key.substr(of_linkage.size()));
    }
    if (part.kind == PartKind::channel && (key == "coil" || key == "actuator")) {
        const Channel* channel = find(show, ChannelId{part.id});
        return channel != nullptr && channel->kind == ChannelKind::valve;
    }
    return true;
}

}  // namespace gasp
