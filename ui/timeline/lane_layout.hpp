// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "ui/editor/settings.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// One horizontal strip of the timeline.
struct Lane {
    enum class Kind { sound, channel, pressure };
    Kind kind = Kind::channel;
    ChannelId channel;             ///< of a channel lane
    std::uint32_t sound_lane = 0;  ///< of a sound lane, counted from 1
    ChannelKind channel_kind = ChannelKind::other;
    std::optional<ActuatorId> travel;  ///< whose travel is drawn over the cues
    int top = 0;                       ///< from the top of the first lane, logical pixels
    int height = 0;                    ///< its last pixel row is the rule below it

    [[nodiscard]] int bottom() const { return top + height; }
    /// Whether the clip lies on this lane.
    [[nodiscard]] bool holds(const SoundClip& clip) const {
        return kind == Kind::sound && clip.lane == sound_lane;
    }
    bool operator==(const Lane&) const = default;
};

/// The lanes of a sequence from top to bottom: its sound lanes, the channels in the order of the rig, and the
/// receiver's pressure where any channel is a valve's.
class LaneLayout {
  public:
    /// Of a channel lane of normal height in a low window.
    static constexpr int channel_px = 36;

    LaneLayout() = default;
    /// Where the lanes need less than `room_px` all grow alike, up to a limit.
    LaneLayout(const Show& show, const Sequence& sequence, LaneHeight height = LaneHeight::normal,
               int room_px = 0);

    [[nodiscard]] const std::vector<Lane>& lanes() const { return lanes_; }
    [[nodiscard]] int height() const;
    /// Null above the first and below the last. O(log n).
    [[nodiscard]] const Lane* at(double y) const;
    [[nodiscard]] const Lane* of(ChannelId channel) const;
    /// The sound lanes, from the uppermost.
    [[nodiscard]] std::span<const Lane> sounds() const;
    [[nodiscard]] std::size_t index_of(const Lane& lane) const;
    /// The nearest lane of a channel of the same kind above (-1) or below (+1); null at the end.
    [[nodiscard]] const Lane* neighbour(ChannelId channel, int way) const;

    bool operator==(const LaneLayout&) const = default;

  private:
    std::vector<Lane> lanes_;
};

}  // namespace gasp
