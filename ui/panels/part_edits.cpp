// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/panels/part_edits.hpp"

#include "core/show/edits.hpp"

#include <algorithm>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gasp {
namespace {

template <class T>
std::string name_for(const std::vector<T>& list, std::string_view wanted) {
    std::vector<std::string> taken;
    for (const T& thing : list) {
        taken.push_back(thing.name);
    }
    return free_name(wanted, taken);
}

template <class T>
std::size_t place_of(const std::vector<T>& list, decltype(T::id) id) {
    const auto it = std::find_if(list.begin(), list.end(), [&](const T& thing) { return thing.id == id; });
    return static_cast<std::size_t>(it - list.begin());
}

template <class T>
Edit moved(const std::vector<T>& list, decltype(T::id) id, int by) {
    const std::size_t from = place_of(list, id);
    const auto to = static_cast<std::ptrdiff_t>(from) + by;
    if (from >= list.size() || to < 0 || to >= static_cast<std::ptrdiff_t>(list.size())) {
        return {};
    }
    const T& thing = list[from];
    return {"move " + thing.name, {Exchange<T>{thing, thing, from, static_cast<std::size_t>(to)}}, 0};
}

}  // namespace

Edit add_part(const Show& show, PartKind kind) {
    switch (kind) {
        case PartKind::actuator: {
            Actuator actuator;
            actuator.name = name_for(show.rig.actuators, "Actuator");
            return add_actuator(show, std::move(actuator));
        }
        case PartKind::channel: {
            Channel channel;
            channel.name = name_for(show.rig.channels, "Channel");
            return add_channel(show, std::move(channel));
        }
        case PartKind::board: {
            Board board;
            board.name = name_for(show.rig.boards, "Board");
            return add_board(show, std::move(board));
        }
        case PartKind::supply: {
            Supply supply;
            supply.name = name_for(show.rig.supplies, "Supply");
            return add_supply(show, std::move(supply));
        }
        default:
            return {};
    }
}

Edit duplicate_part(const Show& show, Part part) {
    if (!exists(show, part)) {
        return {};
    }
    switch (part.kind) {
        case PartKind::actuator: {
            Actuator twin = *find(show, ActuatorId{part.id});
            twin.name = name_for(show.rig.actuators, twin.name);
            return add_actuator(show, std::move(twin));
        }
        case PartKind::channel: {
            Channel twin = *find(show, ChannelId{part.id});
            twin.name = name_for(show.rig.channels, twin.name);
            twin.output.reset();
            return add_channel(show, std::move(twin));
        }
        case PartKind::board: {
            Board twin = *find(show, BoardId{part.id});
            twin.name = name_for(show.rig.boards, twin.name);
            return add_board(show, std::move(twin));
        }
        case PartKind::supply: {
            Supply twin = *find(show, SupplyId{part.id});
            twin.name = name_for(show.rig.supplies, twin.name);
            return add_supply(show, std::move(twin));
        }
        default:
            return {};
    }
}

Edit remove_part(const Show& show, Part part) {
    switch (part.kind) {
        case PartKind::actuator:
            return remove_actuator(show, ActuatorId{part.id});
        case PartKind::channel:
            return remove_channel(show, ChannelId{part.id});
        case PartKind::board:
            return remove_board(show, BoardId{part.id});
        case PartKind::supply:
            return remove_supply(show, SupplyId{part.id});
        default:
            return {};
    }
}

Edit move_part(const Show& show, Part part, int by) {
    switch (part.kind) {
        case PartKind::actuator:
            return moved(show.rig.actuators, ActuatorId{part.id}, by);
        case PartKind::channel:
            return moved(show.rig.channels, ChannelId{part.id}, by);
        case PartKind::board:
            return moved(show.rig.boards, BoardId{part.id}, by);
        case PartKind::supply:
            return moved(show.rig.supplies, SupplyId{part.id}, by);
        default:
            return {};
    }
}

std::optional<Part> part_put_by(const Edit& edit) {
    for (const Change& change : edit.changes) {
        if (const auto* actuator = std::get_if<Exchange<Actuator>>(&change); actuator && actuator->after) {
            return Part{PartKind::actuator, actuator->after->id.value};
        }
        if (const auto* channel = std::get_if<Exchange<Channel>>(&change); channel && channel->after) {
            return Part{PartKind::channel, channel->after->id.value};
        }
        if (const auto* board = std::get_if<Exchange<Board>>(&change); board && board->after) {
            return Part{PartKind::board, board->after->id.value};
        }
        if (const auto* supply = std::get_if<Exchange<Supply>>(&change); supply && supply->after) {
            return Part{PartKind::supply, supply->after->id.value};
        }
    }
    return {};
}

Edit named_after(Edit edit, const QString& label, const QString& part) {
    edit.sentence = QStringLiteral("set %1 of %2").arg(label.toLower(), part).toStdString();
    return edit;
}

}  // namespace gasp
