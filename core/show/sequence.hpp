// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/time.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace gasp {

/// A stretch of an audio file placed on a sequence.
struct SoundClip {
    ClipId id;
    std::string file;     ///< relative to the show's folder, '/' between folders, never leaving it
    std::string content;  ///< content_of() the file, to find it again when moved
    Micros file_length{0};
    Micros start{0};   ///< on the ruler
    Micros from{0};    ///< where in the file it begins
    Micros length{0};  ///< how much of the file is played
    double gain_db = 0.0;
    std::uint32_t lane = 1;  ///< of the sound lanes, which are counted from the uppermost; all are heard
    Micros fade_in{0};       ///< from silence at the start, the level rising evenly
    Micros fade_out{0};      ///< to silence at the end
    std::string extra;
    bool operator==(const SoundClip&) const = default;
};

/// A named moment on the ruler.
struct Mark {
    MarkId id;
    std::string name;
    Micros time{0};
    std::string extra;
    bool operator==(const Mark&) const = default;
};

/// Flashes within a cue: on for `duty_percent` of each period, beginning with on; a last flash may be cut
/// short.
struct Flashes {
    double rate_hz = 2.0;
    double duty_percent = 50.0;
    bool operator==(const Flashes&) const = default;
};

/// One intended action of one channel: its output is driven from the start for the length, steadily or in
/// flashes. A load on a normally closed contact is then off: a cue takes the load out of its rest.
struct Cue {
    CueId id;
    ChannelId channel;
    std::optional<MarkId> mark;  ///< tied to it: the cue moves with the mark
    Micros at{0};                ///< the start on the ruler, or when tied, the offset from the mark
    Micros length{0};
    std::optional<Flashes> flashes;  ///< empty: steady
    bool strikes = false;  ///< `at` is when the figure is to strike: the schedule finds the start before it
    bool from_voice = false;  ///< made from a voice, and not changed by hand since
    Micros freedom{0};        ///< how far a stagger may shift it, either way
    std::string name;
    std::string extra;
    bool operator==(const Cue&) const = default;
};

enum class SequenceKind : std::uint8_t { triggered, idle, by_hand };

/// One timeline. Clips, marks and cues are kept in the order of their ids.
struct Sequence {
    SequenceId id;
    std::string name;
    SequenceKind kind = SequenceKind::triggered;
    Micros length{0};
    Figure trigger_after_s;  ///< of a triggered one: how long after its arrival a group trips it; 0 if blank
    std::vector<SoundClip> clips;
    std::vector<Mark> marks;
    std::vector<Cue> cues;
    std::string extra;
    bool operator==(const Sequence&) const = default;
};

/// Null when there is none of that id. O(log n).
[[nodiscard]] const SoundClip* find(const Sequence& sequence, ClipId id);
[[nodiscard]] const Mark* find(const Sequence& sequence, MarkId id);
[[nodiscard]] const Cue* find(const Sequence& sequence, CueId id);

/// Where a cue begins on the ruler, or where it strikes if it is placed so: its own time, or its mark's and
/// the offset. A cue tied to a mark that is gone begins at its offset.
[[nodiscard]] Micros start_of(const Sequence& sequence, const Cue& cue);

/// The end of the last sound clip; 0 without any.
[[nodiscard]] Micros end_of_sound(const Sequence& sequence);

/// How many sound lanes the clips take up: the lowest one with a clip, and at least one.
[[nodiscard]] std::uint32_t sound_lanes(const Sequence& sequence);

}  // namespace gasp
