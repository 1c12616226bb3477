// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_run.hpp"
#include "core/show/show.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// A channel at a moment.
struct StageChannel {
    ChannelId id;
    std::string name;
    ChannelKind kind = ChannelKind::lamp;
    Contact contact = Contact::normally_open;
    bool load_on = false;  ///< its contact is closed
    /// Of a lamp: 1 while on, and dying away for some frames after, so that a flash shorter than a frame is
    /// seen.
    double glow = 0.0;
};

/// An actuator at a moment.
struct StageActuator {
    ActuatorId id;
    std::string name;
    ValveKind valve = ValveKind::five_two_one_coil;
    CylinderAction action = CylinderAction::double_acting;
    Figure angle_deg;
    bool sent_out = false;  ///< the way its valve was sent last
    bool coil_out_on = false;
    bool coil_back_on = false;
    bool stated = true;   ///< both ways are simulated, or their times stated; else it jumps
    bool jumped = false;  ///< it jumped within the last moment, for want of a stroke time
    double share = 0.0;   ///< of its travel, 0 back, 1 out
};

/// What the stage shows of a sequence at a moment.
struct StageState {
    std::vector<StageChannel> channels;    ///< in the order of the rig
    std::vector<StageActuator> actuators;  ///< in the order of the rig
    Figure receiver_kpa_gauge;             ///< empty where the receiver lacks a figure
    bool compressor_fills = false;         ///< the pressure is rising
};

/// What follows from a schedule once and is asked at every frame.
class StagePlan {
  public:
    StagePlan() = default;
    /// The dwells are of each of `schedule.channels`; all come from one analysis of `show`.
    StagePlan(const Show& show, const Schedule& schedule, std::vector<std::vector<Dwell>> dwells,
              std::vector<StrokeCommand> strokes, const SequenceAir& air);

    /// O(channels + actuators), times the logarithm of their events.
    [[nodiscard]] StageState at(Micros time) const;

    [[nodiscard]] bool empty() const { return channels_.empty() && actuators_.empty(); }
    [[nodiscard]] const std::vector<std::string>& missing_air() const { return missing_air_; }
    [[nodiscard]] Figure cut_in_kpa_gauge() const { return cut_in_; }
    [[nodiscard]] Figure cut_out_kpa_gauge() const { return cut_out_; }

  private:
    struct PlannedChannel {
        StageChannel still;
        std::vector<Dwell> dwells;
    };
    struct PlannedActuator {
        StageActuator still;
        bool rests_out = false;
        FigureMotion motion;
        std::vector<StrokeCommand> strokes;
        std::optional<std::size_t> out_channel;
        std::optional<std::size_t> back_channel;
    };
    [[nodiscard]] StageChannel channel_at(const PlannedChannel& planned, Micros time) const;
    [[nodiscard]] StageActuator actuator_at(const PlannedActuator& planned, const StageState& state,
                                            Micros time) const;

    std::vector<PlannedChannel> channels_;
    std::vector<PlannedActuator> actuators_;
    Curve pressure_;
    std::vector<std::string> missing_air_;
    Figure cut_in_;
    Figure cut_out_;
};

}  // namespace gasp
