// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/cue_strike.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

constexpr Micros most_apart{250'000};

}  // namespace

std::optional<Coil> way_of(const Show& show, const Channel& channel) {
    const Actuator* actuator =
        channel.kind == ChannelKind::valve && channel.actuator ? find(show, *channel.actuator) : nullptr;
    if (actuator == nullptr) {
        return {};
    }
    const bool on = load_on(channel.contact, true);
    if (actuator->valve.kind == ValveKind::five_two_two_coils) {
        return on ? std::optional(channel.coil) : std::nullopt;
    }
    return on ? Coil::out : Coil::back;
}

std::optional<std::size_t> stroke_near(std::span<const Stroke> strokes, ActuatorId actuator, Coil way,
                                       Micros time) {
    auto it = std::lower_bound(strokes.begin(), strokes.end(), time - most_apart,
                               [](const Stroke& stroke, Micros at) { return stroke.command.time < at; });
    std::optional<std::size_t> best;
    Micros nearest = most_apart;
    for (; it != strokes.end() && it->command.time <= time + most_apart; ++it) {
        const Micros apart = std::chrono::abs(it->command.time - time);
        if (it->command.actuator == actuator && it->command.way == way && apart <= nearest) {
            nearest = apart;
            best = static_cast<std::size_t>(it - strokes.begin());
        }
    }
    return best;
}

std::optional<Micros> lead_of(const Show& show, const Sequence& played, const SequenceRun& run,
                              const Cue& cue) {
    const Channel* channel = find(show, cue.channel);
    const std::optional<Coil> way = channel != nullptr ? way_of(show, *channel) : std::nullopt;
    if (!way) {
        return {};
    }
    if (const PlacedStrike* placed = run.strike_of(cue.id); placed != nullptr && placed->lead) {
        return placed->lead;
    }
    if (!run.air.run) {
        return {};
    }
    const std::span<const Stroke> strokes(run.air.run->strokes);
    const auto place = stroke_near(strokes, *channel->actuator, *way, start_of(played, cue));
    if (!place || !strokes[*place].strike_s()) {
        return {};
    }
    return Micros{std::llround(*strokes[*place].strike_s() * 1e6)};
}

}  // namespace gasp
