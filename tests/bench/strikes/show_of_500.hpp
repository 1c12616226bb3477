// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/support/air_rig.hpp"

#include <fmt/format.h>

#include <chrono>

namespace gasp::bench {

using namespace std::chrono_literals;

constexpr std::uint32_t actuators = 10;
constexpr std::uint32_t cues = 500;
constexpr Micros between{11s};  // of the strikes of one actuator

/// 500 cues of ten valves, each placed by its strike, on a plant that serves them all. Invented.
inline Show show_of_500() {
    Show show = for_tests::rig_of_two();
    show.rig.air_plant.receiver_l = 500.0;
    show.rig.air_plant.delivery_l_min = 900.0;
    show.rig.actuators.clear();
    for (std::uint32_t i = 0; i < actuators; ++i) {
        const Actuator each =
            for_tests::throttled({100 + i}, fmt::format("figure {}", i + 1), 25.0 + 2.0 * i, 3.0 + i);
        show.rig.actuators.push_back(each);
        Channel channel;
        channel.id = {200 + i};
        channel.name = fmt::format("valve {}", i + 1);
        channel.kind = ChannelKind::valve;
        channel.actuator = each.id;
        show.rig.channels.push_back(channel);
    }
    Sequence& sequence = show.sequences[0];
    sequence.length = (cues / actuators + 2) * between;
    for (std::uint32_t i = 0; i < cues; ++i) {
        Cue cue;
        cue.id = {1000 + i};
        cue.channel = {200 + i % actuators};
        cue.at = 2s + (i / actuators) * between + (i % actuators) * 700ms;
        cue.length = 1200ms + (i % 7) * 10ms;
        cue.strikes = true;
        sequence.cues.push_back(cue);
    }
    return show;
}

/// The same on a plant that does not: every stroke depends on the ones before it.
inline Show starved_show_of_500() {
    Show show = show_of_500();
    show.rig.air_plant.receiver_l = 50.0;
    show.rig.air_plant.delivery_l_min = 120.0;
    return show;
}

}  // namespace gasp::bench
