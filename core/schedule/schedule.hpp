// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/run/stroke_command.hpp"
#include "core/show/show.hpp"

#include <span>
#include <vector>

namespace gasp {

/// One change of one channel, on its board's tick.
struct SwitchEvent {
    Micros time{0};
    ChannelId channel;
    bool driven = false;  ///< the output from here on: away from its rest, or back at it
    bool operator==(const SwitchEvent&) const = default;
};

/// What a channel of a schedule needs said of it beside its events.
struct ScheduledChannel {
    ChannelId id;
    Contact contact = Contact::normally_open;
    Micros tick{1000};
    bool operator==(const ScheduledChannel&) const = default;
};

/// A sequence resolved into switching events: the one truth that is drawn, auditioned, checked and exported.
/// Every channel of the rig is at rest (not driven) at 0, before any event, and is put to rest at `length` at
/// the latest. Events are in order of time, then of the channel's place in `channels`; times are multiples of
/// their channel's tick; each event changes its channel.
struct Schedule {
    SequenceId sequence;
    Micros length{0};
    std::vector<ScheduledChannel> channels;  ///< in the order of the rig
    std::vector<SwitchEvent> events;
    Micros largest_rounding{0};    ///< the furthest any event was moved to reach its tick
    std::size_t lost_in_tick = 0;  ///< cues, flashes and rests between flashes that vanished in the rounding
    bool operator==(const Schedule&) const = default;
};

/// Whether the load sees power: an output away from rest opens a normally closed contact.
[[nodiscard]] constexpr bool load_on(Contact contact, bool driven) {
    return (contact == Contact::normally_open) == driven;
}

/// A stretch of time in which an output is driven, [begin, end).
struct Dwell {
    Micros begin{0};
    Micros end{0};
    bool operator==(const Dwell&) const = default;
};

/// The stretches one cue asks for, before rounding: itself, or its flashes, each worked out from the start so
/// that no error adds up. At most `most` of them are made.
[[nodiscard]] std::vector<Dwell> dwells_of(const Sequence& sequence, const Cue& cue,
                                           std::size_t most = 1'000'000);

/// Resolves all cues of a sequence: starts before strikes (as work_out, sequence_run.hpp, which whoever needs
/// more than the schedule calls instead), ties to marks, patterns, cues joined where they overlap on a
/// channel, clipped to the sequence (a check tells of it), rounded once to the tick of each channel's board
/// (half away from zero). A sequence of more flashes than `most_flashes` (cue_spans.hpp) gets the first of
/// each cue; a check tells of it. Linear in the events.
[[nodiscard]] Schedule resolve(const Show& show, const Sequence& sequence);

/// The driven stretches of each channel, in the order of `schedule.channels`.
[[nodiscard]] std::vector<std::vector<Dwell>> dwells_by_channel(const Schedule& schedule);

/// The moments at which valves send their figures out and back, from what the loads see: a one-coil valve
/// sends it out when it gets power and back when it loses it; each coil of a two-coil valve one way when it
/// gets power.
[[nodiscard]] std::vector<StrokeCommand> stroke_commands(const Show& show, const Schedule& schedule);

/// Whether a channel is driven at a moment. O(log n) with `dwells` of that channel.
[[nodiscard]] bool driven_at(std::span<const Dwell> dwells, Micros time);

}  // namespace gasp
