// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/show.hpp"

#include <algorithm>

namespace gasp {
namespace {

template <class T, class IdOf>
const T* find_in(const std::vector<T>& things, IdOf id) {
    const auto place =
        std::find_if(things.begin(), things.end(), [id](const T& thing) { return thing.id == id; });
    return place != things.end() ? &*place : nullptr;
}

}  // namespace

const Actuator* find(const Show& show, ActuatorId id) {
    return find_in(show.rig.actuators, id);
}
const Channel* find(const Show& show, ChannelId id) {
    return find_in(show.rig.channels, id);
}
const Board* find(const Show& show, BoardId id) {
    return find_in(show.rig.boards, id);
}
const Supply* find(const Show& show, SupplyId id) {
    return find_in(show.rig.supplies, id);
}
const Sequence* find(const Show& show, SequenceId id) {
    return find_in(show.sequences, id);
}

Micros tick_of(const Show& show, const Channel& channel) {
    const Board* board = channel.board ? find(show, *channel.board) : nullptr;
    return from_ms(board && board->tick_ms ? *board->tick_ms : 1.0);
}

const Channel* channel_of(const Show& show, ActuatorId actuator, Coil coil) {
    const auto& channels = show.rig.channels;
    const auto place = std::find_if(channels.begin(), channels.end(), [=](const Channel& channel) {
        return channel.kind == ChannelKind::valve && channel.actuator == actuator && channel.coil == coil;
    });
    return place != channels.end() ? &*place : nullptr;
}

Show empty_show() {
    Show show;
    Sequence first;
    first.id = SequenceId{show.next_id++};
    first.name = "Sequence 1";
    first.length = std::chrono::seconds{10};
    show.sequences.push_back(std::move(first));
    return show;
}

}  // namespace gasp
