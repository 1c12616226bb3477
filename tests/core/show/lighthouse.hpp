// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edits.hpp"

#include <chrono>

namespace gasp::testing {

using namespace std::chrono_literals;

inline Channel channel_of(std::uint32_t id, std::string name, ChannelKind kind) {
    Channel channel;
    channel.id = ChannelId{id};
    channel.name = std::move(name);
    channel.kind = kind;
    return channel;
}

inline Cue cue_of(std::uint32_t id, std::uint32_t channel, std::optional<MarkId> mark, Micros at,
                  Micros length) {
    Cue cue;
    cue.id = CueId{id};
    cue.channel = ChannelId{channel};
    cue.mark = mark;
    cue.at = at;
    cue.length = length;
    return cue;
}

/// A keeper that lunges (channel 3, actuator 1, board 2) and a lamp (4) that excludes it. In "Scare" (5, 20
/// s) a mark "light" at 4 s (6); the lamp's cue 7 at 1 s for 2 s; the keeper's cue 8, tied, 0.5 s before the
/// mark for 1 s. In "Idle" (9) the lamp's cue 10.
inline Show lighthouse() {
    Show show;
    show.name = "Lighthouse";
    Actuator keeper;
    keeper.id = ActuatorId{1};
    keeper.name = "Keeper";
    keeper.cylinder.bore_mm = 40;
    show.rig.actuators = {keeper};
    Board board;
    board.id = BoardId{2};
    board.name = "Box";
    show.rig.boards = {board};
    Channel lunge = channel_of(3, "Lunge", ChannelKind::valve);
    lunge.actuator = keeper.id;
    lunge.board = board.id;
    lunge.output = 1;
    Channel lamp = channel_of(4, "Lamp", ChannelKind::lamp);
    lamp.excludes = {lunge.id};
    show.rig.channels = {lunge, lamp};
    Sequence scare;
    scare.id = SequenceId{5};
    scare.name = "Scare";
    scare.length = 20s;
    scare.marks = {{MarkId{6}, "light", 4s, {}}};
    scare.cues = {cue_of(7, 4, std::nullopt, 1s, 2s), cue_of(8, 3, MarkId{6}, -500ms, 1s)};
    Sequence idle;
    idle.id = SequenceId{9};
    idle.name = "Idle";
    idle.kind = SequenceKind::idle;
    idle.length = 60s;
    idle.cues = {cue_of(10, 4, std::nullopt, 0s, 5s)};
    show.sequences = {scare, idle};
    show.next_id = 11;
    return show;
}

inline constexpr SequenceId scare{5};
inline constexpr SequenceId idle{9};
inline constexpr MarkId light{6};
inline constexpr CueId lamp_cue{7};
inline constexpr CueId lunge_cue{8};

/// The document with the edit done to it.
inline Show with(const Edit& edit, Show show) {
    apply(edit, show);
    return show;
}

/// The cue as it is in the first sequence; one without id when it is gone.
inline Cue cue_in(const Show& show, CueId id) {
    const Cue* cue = find(show.sequences.front(), id);
    return cue ? *cue : Cue{};
}

inline Micros start_in(const Show& show, CueId id) {
    return start_of(show.sequences.front(), cue_in(show, id));
}

}  // namespace gasp::testing
