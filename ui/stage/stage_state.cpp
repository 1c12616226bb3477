// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/stage_state.hpp"

#include "core/air/run/travel.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace gasp {

namespace {

/// How a lamp dies away on the stage: a picture for the eye, not a model of the lamp.
constexpr double afterglow_us = 45'000.0;
/// How long a jump stays marked.
constexpr Micros jump_shown{400'000};

/// The last moment up to `time` at which the load went off; empty: it has been off from the start.
std::optional<Micros> last_off(const std::vector<Dwell>& dwells, Contact contact, Micros time) {
    const auto after = std::upper_bound(dwells.begin(), dwells.end(), time,
                                        [](Micros t, const Dwell& dwell) { return t < dwell.begin; });
    if (after == dwells.begin()) {
        return std::nullopt;
    }
    const Dwell& last = *(after - 1);
    return contact == Contact::normally_open ? last.end : last.begin;
}

std::optional<std::size_t> index_of(const Show& show, const Channel* channel) {
    if (channel == nullptr) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(channel - show.rig.channels.data());
}

/// The receiver on the straight line between two points of its curve, and whether that line rises.
std::pair<double, bool> pressure_at(const Curve& curve, Micros time) {
    const auto after = std::ranges::upper_bound(curve.points, to_s(time), {}, &CurvePoint::time_s);
    const bool inside = after != curve.points.begin() && after != curve.points.end();
    return {curve.at(time), inside && after->value > std::prev(after)->value};
}

std::vector<std::string> names_of(const std::vector<BlankField>& fields) {
    std::vector<std::string> names;
    names.reserve(fields.size());
    for (const BlankField& field : fields) {
        names.push_back(field.label);
    }
    return names;
}

}  // namespace

StagePlan::StagePlan(const Show& show, const Schedule& schedule, std::vector<std::vector<Dwell>> dwells,
                     std::vector<StrokeCommand> strokes, const SequenceAir& air)
    : pressure_(air.run && air.receiver_missing.empty() ? air.run->receiver_kpa : Curve{}),
      missing_air_(names_of(air.receiver_missing)),
      cut_in_(show.rig.air_plant.cut_in_kpa_gauge),
      cut_out_(show.rig.air_plant.cut_out_kpa_gauge) {
    for (const Channel& channel : show.rig.channels) {
        StageChannel still{channel.id, channel.name, channel.kind, channel.contact, false, 0.0};
        channels_.push_back({std::move(still), {}});
        for (std::size_t i = 0; i < schedule.channels.size() && i < dwells.size(); ++i) {
            if (schedule.channels[i].id == channel.id) {
                channels_.back().dwells = std::move(dwells[i]);
            }
        }
    }
    for (const Actuator& actuator : show.rig.actuators) {
        PlannedActuator planned;
        planned.rests_out = rests_out(show, actuator);
        if (const FigureMotion* motion = air.motion_of(actuator.id)) {
            planned.motion = *motion;
        }
        StageActuator& still = planned.still;
        still.id = actuator.id;
        still.name = actuator.name;
        still.valve = actuator.valve.kind;
        still.action = actuator.cylinder.action;
        still.angle_deg = actuator.load.angle_deg;
        still.stated = planned.motion.out_known && planned.motion.back_known;
        std::copy_if(strokes.begin(), strokes.end(), std::back_inserter(planned.strokes),
                     [&](const StrokeCommand& stroke) { return stroke.actuator == actuator.id; });
        planned.out_channel = index_of(show, channel_of(show, actuator.id, Coil::out));
        planned.back_channel = index_of(show, channel_of(show, actuator.id, Coil::back));
        actuators_.push_back(std::move(planned));
    }
}

StageState StagePlan::at(Micros time) const {
    StageState state;
    for (const PlannedChannel& planned : channels_) {
        state.channels.push_back(channel_at(planned, time));
    }
    for (const PlannedActuator& planned : actuators_) {
        state.actuators.push_back(actuator_at(planned, state, time));
    }
    if (!pressure_.points.empty()) {
        std::tie(state.receiver_kpa_gauge, state.compressor_fills) = pressure_at(pressure_, time);
    }
    return state;
}

StageChannel StagePlan::channel_at(const PlannedChannel& planned, Micros time) const {
    StageChannel channel = planned.still;
    channel.load_on = load_on(channel.contact, driven_at(planned.dwells, time));
    if (channel.load_on) {
        channel.glow = 1.0;
    } else if (const auto off = last_off(planned.dwells, channel.contact, time)) {
        channel.glow = std::exp(-static_cast<double>((time - *off).count()) / afterglow_us);
    }
    return channel;
}

StageActuator StagePlan::actuator_at(const PlannedActuator& planned, const StageState& state,
                                     Micros time) const {
    StageActuator actuator = planned.still;
    const auto on = [&](std::optional<std::size_t> channel) {
        return channel && state.channels[*channel].load_on;
    };
    actuator.coil_out_on = on(planned.out_channel);
    actuator.coil_back_on = on(planned.back_channel);
    actuator.share = planned.motion.curve.share_at(time);
    actuator.sent_out = planned.rests_out;
    const auto after =
        std::upper_bound(planned.strokes.begin(), planned.strokes.end(), time,
                         [](Micros t, const StrokeCommand& stroke) { return t < stroke.time; });
    if (after != planned.strokes.begin()) {
        const StrokeCommand& last = *(after - 1);
        actuator.sent_out = last.way == Coil::out;
        const bool stated = actuator.sent_out ? planned.motion.out_known : planned.motion.back_known;
        actuator.jumped = !stated && time - last.time < jump_shown;
    }
    return actuator;
}

}  // namespace gasp
