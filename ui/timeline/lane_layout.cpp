// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_layout.hpp"

#include <algorithm>

namespace gasp {

namespace {

Lane channel_lane(const Channel& channel) {
    Lane lane;
    lane.channel = channel.id;
    lane.channel_kind = channel.kind;
    lane.height = LaneLayout::channel_px;
    if (channel.kind == ChannelKind::valve && channel.actuator && channel.coil == Coil::out) {
        lane.travel = channel.actuator;
        lane.height = LaneLayout::travel_px;
    }
    return lane;
}

}  // namespace

LaneLayout::LaneLayout(const Show& show) {
    lanes_.push_back({Lane::Kind::sound, {}, ChannelKind::other, {}, 0, sound_px});
    bool any_valve = false;
    for (const Channel& channel : show.rig.channels) {
        lanes_.push_back(channel_lane(channel));
        any_valve = any_valve || channel.kind == ChannelKind::valve;
    }
    if (any_valve) {
        lanes_.push_back({Lane::Kind::pressure, {}, ChannelKind::other, {}, 0, pressure_px});
    }
    int top = 0;
    for (Lane& lane : lanes_) {
        lane.top = top;
        top += lane.height;
    }
}

int LaneLayout::height() const {
    return lanes_.empty() ? 0 : lanes_.back().bottom();
}

const Lane* LaneLayout::at(double y) const {
    if (y < 0) {
        return nullptr;
    }
    const auto found = std::upper_bound(lanes_.begin(), lanes_.end(), y,
                                        [](double value, const Lane& lane) { return value < lane.bottom(); });
    return found == lanes_.end() ? nullptr : &*found;
}

const Lane* LaneLayout::of(ChannelId channel) const {
    const auto found = std::find_if(lanes_.begin(), lanes_.end(), [channel](const Lane& lane) {
        return lane.kind == Lane::Kind::channel && lane.channel == channel;
    });
    return found == lanes_.end() ? nullptr : &*found;
}

std::size_t LaneLayout::index_of(const Lane& lane) const {
    return static_cast<std::size_t>(&lane - lanes_.data());
}

const Lane* LaneLayout::neighbour(ChannelId channel, int way) const {
    const Lane* from = of(channel);
    if (from == nullptr) {
        return nullptr;
    }
    const auto count = static_cast<std::ptrdiff_t>(lanes_.size());
    for (auto i = static_cast<std::ptrdiff_t>(index_of(*from)) + way; i >= 0 && i < count; i += way) {
        const Lane& lane = lanes_[static_cast<std::size_t>(i)];
        if (lane.kind == Lane::Kind::channel && lane.channel_kind == from->channel_kind) {
            return &lane;
        }
    }
    return nullptr;
}

}  // namespace gasp
