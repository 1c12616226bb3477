// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/look_ahead.hpp"

#include "core/air/budget/band.hpp"
#include "ui/editor/document.hpp"
#include "ui/timeline/lane_index.hpp"

#include <set>
#include <utility>

namespace gasp {
namespace {

/// More cues than any figure has; past them only the run is waited for.
constexpr std::size_t most_cues = 20'000;

}  // namespace

Sequence LookAhead::cues_of(ActuatorId actuator) const {
    const Sequence& sequence = document_.sequence();
    Sequence own;
    own.id = sequence.id;
    own.length = sequence.length;
    for (const Channel& channel : document_.show().rig.channels) {
        if (channel.kind != ChannelKind::valve || channel.actuator != actuator) {
            continue;
        }
        for (const PlacedCue& placed : cues_.of(channel.id).all()) {
            if (const Cue* cue = find(sequence, placed.id)) {
                own.cues.push_back(*cue);
                own.cues.back().strikes = false;
                own.cues.back().mark.reset();
                own.cues.back().at = placed.begin;
            }
        }
    }
    return own;
}

void LookAhead::look_at(ActuatorId actuator, const SequenceRun& last) {
    const Sequence own = cues_of(actuator);
    figures_.erase(actuator);
    if (own.cues.size() > most_cues) {
        return;
    }
    if (!model_) {
        model_ = fitted_air_model(document_.show());
    }
    auto preview = preview_motion(document_.show(), own, actuator, last, *model_);
    if (preview) {
        simulated_ += preview->simulated;
        figures_.emplace(actuator, std::move(*preview));
    }
}

void LookAhead::follow(std::span<const ChannelId> channels, const SequenceRun* last) {
    if (last == nullptr) {
        return;
    }
    std::set<ActuatorId> actuators;
    for (const ChannelId id : channels) {
        const Channel* channel = find(document_.show(), id);
        if (channel != nullptr && channel->kind == ChannelKind::valve && channel->actuator) {
            actuators.insert(*channel->actuator);
        }
    }
    for (const ActuatorId actuator : actuators) {
        look_at(actuator, *last);
    }
}

void LookAhead::take(const SequenceRun* last, bool up_to_date) {
    if (last == nullptr || up_to_date) {
        figures_.clear();
        return;
    }
    std::set<ActuatorId> actuators;
    for (const auto& [actuator, preview] : figures_) {
        actuators.insert(actuator);
    }
    for (const ActuatorId actuator : actuators) {
        look_at(actuator, *last);
    }
}

void LookAhead::clear() {
    figures_.clear();
    model_.reset();
}

const MotionPreview* LookAhead::of(ActuatorId actuator) const {
    const auto found = figures_.find(actuator);
    return found != figures_.end() ? &found->second : nullptr;
}

}  // namespace gasp
