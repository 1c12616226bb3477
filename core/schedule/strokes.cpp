// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/schedule.hpp"

#include <unordered_map>

namespace gasp {
namespace {

/// What switching a channel does to an actuator.
struct ValveChannel {
    ActuatorId actuator;
    Contact contact = Contact::normally_open;
    Coil coil = Coil::out;
    bool two_coils = false;
};

std::unordered_map<ChannelId, ValveChannel> valve_channels(const Show& show) {
    std::unordered_map<ChannelId, ValveChannel> valves;
    for (const Channel& channel : show.rig.channels) {
        const Actuator* actuator =
            channel.kind == ChannelKind::valve && channel.actuator ? find(show, *channel.actuator) : nullptr;
        if (actuator != nullptr) {
            const bool two_coils = actuator->valve.kind == ValveKind::five_two_two_coils;
            valves.insert({channel.id, {actuator->id, channel.contact, channel.coil, two_coils}});
        }
    }
    return valves;
}

}  // namespace

std::vector<StrokeCommand> stroke_commands(const Show& show, const Schedule& schedule) {
    const auto valves = valve_channels(show);
    std::vector<StrokeCommand> commands;
    if (valves.empty()) {
        return commands;
    }
    for (const SwitchEvent& event : schedule.events) {
        const auto found = valves.find(event.channel);
        if (found == valves.end()) {
            continue;
        }
        const ValveChannel& valve = found->second;
        const bool powered = load_on(valve.contact, event.driven);
        if (valve.two_coils && powered) {
            commands.push_back({event.time, valve.actuator, valve.coil});
        } else if (!valve.two_coils) {
            commands.push_back({event.time, valve.actuator, powered ? Coil::out : Coil::back});
        }
    }
    return commands;
}

}  // namespace gasp
