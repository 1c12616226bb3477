// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_layout.hpp"

#include <algorithm>

namespace gasp {

namespace {

constexpr double most_growth = 2.0;

/// Of each kind of lane, logical pixels.
struct Heights {
    int sound = 0;
    int channel = 0;
    int travel = 0;
    int pressure = 0;
};

/// Several sound lanes are each lower than one alone.
constexpr int low_sound_px(int sound_px) {
    return sound_px * 2 / 3;
}

constexpr Heights heights_of(LaneHeight height) {
    switch (height) {
        case LaneHeight::compact:
            return {48, 24, 36, 64};
        case LaneHeight::normal:
            return {72, LaneLayout::channel_px, 56, 80};
        case LaneHeight::tall:
            return {112, 56, 88, 128};
    }
    return {};
}

Lane channel_lane(const Channel& channel, const Heights& heights) {
    Lane lane;
    lane.channel = channel.id;
    lane.channel_kind = channel.kind;
    lane.height = heights.channel;
    if (channel.kind == ChannelKind::valve && channel.actuator && channel.coil == Coil::out) {
        lane.travel = channel.actuator;
        lane.height = heights.travel;
    }
    return lane;
}

}  // namespace

LaneLayout::LaneLayout(const Show& show, const Sequence& sequence, LaneHeight height, int room_px) {
    const Heights heights = heights_of(height);
    const std::uint32_t sounds = sound_lanes(sequence);
    const int sound_px = sounds > 1 ? low_sound_px(heights.sound) : heights.sound;
    for (std::uint32_t lane = 1; lane <= sounds; ++lane) {
        lanes_.push_back({Lane::Kind::sound, {}, lane, ChannelKind::other, {}, 0, sound_px});
    }
    bool any_valve = false;
    for (const Channel& channel : show.rig.channels) {
        lanes_.push_back(channel_lane(channel, heights));
        any_valve = any_valve || channel.kind == ChannelKind::valve;
    }
    if (any_valve) {
        lanes_.push_back({Lane::Kind::pressure, {}, 0, ChannelKind::other, {}, 0, heights.pressure});
    }
    int needed = 0;
    for (const Lane& lane : lanes_) {
        needed += lane.height;
    }
    const double growth = std::clamp(static_cast<double>(room_px) / needed, 1.0, most_growth);
    int top = 0;
    for (Lane& lane : lanes_) {
        lane.top = top;
        lane.height = static_cast<int>(lane.height * growth);
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

std::span<const Lane> LaneLayout::sounds() const {
    const auto end =
        std::ranges::find_if(lanes_, [](const Lane& lane) { return lane.kind != Lane::Kind::sound; });
    return {lanes_.begin(), end};
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
