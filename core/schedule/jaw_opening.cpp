// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/jaw_opening.hpp"

#include <algorithm>

namespace gasp {

namespace {

std::vector<Dwell> dwells_of(const Schedule& schedule, ChannelId channel) {
    const auto place = std::ranges::find(schedule.channels, channel, &ScheduledChannel::id);
    const auto index = static_cast<std::size_t>(place - schedule.channels.begin());
    std::vector<std::vector<Dwell>> all = dwells_by_channel(schedule);
    return index < all.size() ? std::move(all[index]) : std::vector<Dwell>();
}

}  // namespace

std::vector<float> jaw_opening(const Show& show, const SequenceRun& run, ChannelId id, const JawLeads& leads,
                               Micros step, std::size_t steps) {
    std::vector<float> opening(steps, 0.0F);
    const Channel* channel = find(show, id);
    const FigureMotion* motion =
        channel != nullptr && channel->kind == ChannelKind::valve && channel->actuator
            ? run.air.motion_of(*channel->actuator)
            : nullptr;
    if (motion != nullptr) {
        for (std::size_t i = 0; i < steps; ++i) {
            opening[i] = static_cast<float>(motion->curve.share_at(step * static_cast<Micros::rep>(i)));
        }
        return opening;
    }
    for (const Dwell& dwell : dwells_of(run.schedule, id)) {
        const auto first = static_cast<std::size_t>((dwell.begin + leads.open) / step);
        const auto last = static_cast<std::size_t>((dwell.end + leads.close) / step);
        for (std::size_t i = first; i < std::min(last, steps); ++i) {
            opening[i] = 1.0F;
        }
    }
    return opening;
}

}  // namespace gasp
