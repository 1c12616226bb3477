// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace gasp {

// Every edit the program can make. Each builds the value from the document and changes nothing. A valid
// document stays valid: things whose ids are gone are passed over, times are cut to 0..24 h, a figure outside
// its range stays what it was, a blank name too, and a name that another bears becomes a free one. An edit
// that would change nothing is empty.

/// Cues
/// --------------------------------------------------------------------------------------------------------
[[nodiscard]] Edit add_cues(const Show& show, SequenceId sequence,
                            std::vector<Cue> cues);  ///< ids are given here
[[nodiscard]] Edit remove_cues(const Show& show, SequenceId sequence, std::span<const CueId> ids);
/// Later by `by` (earlier when negative), none before 0: the shift is cut for all of them alike. A tied cue
/// keeps its tie and changes its offset.
[[nodiscard]] Edit move_cues(const Show& show, SequenceId sequence, std::span<const CueId> ids, Micros by);
/// New start and length of one cue on the ruler, its end or its start held. Length at least 1 ms, start at
/// least 0.
[[nodiscard]] Edit stretch_cue(const Show& show, SequenceId sequence, CueId id, Micros start, Micros length);
[[nodiscard]] Edit put_cues_on_channel(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                                       ChannelId channel);
/// Ties cues to a mark, or with no mark frees them; none of them moves on the ruler.
[[nodiscard]] Edit tie_cues(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                            std::optional<MarkId> mark);
[[nodiscard]] Edit set_flashes(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                               std::optional<Flashes> flashes);
/// By how much the strike of a cue comes after its start.
struct CueLead {
    CueId cue;
    Micros lead{0};
};
/// Places cues by when the figure strikes, or again by when the output switches. The leads are what the
/// schedule found: by them no cue moves on the ruler.
[[nodiscard]] Edit set_strikes(const Show& show, SequenceId sequence, std::span<const CueLead> cues,
                               bool strikes);
/// How far a stagger may shift them, either way.
[[nodiscard]] Edit set_freedom(const Show& show, SequenceId sequence, std::span<const CueId> ids,
                               Micros freedom);
/// Puts cues made from a voice on a channel, in place of those that were made so before. What was changed or
/// added by hand there stays, and where it stands none is put.
[[nodiscard]] Edit set_voice_cues(const Show& show, SequenceId sequence, ChannelId channel,
                                  std::span<const std::pair<Micros, Micros>> stretches);
[[nodiscard]] Edit rename_cue(const Show& show, SequenceId sequence, CueId id, std::string name);

/// Marks and sound
/// ---------------------------------------------------------------------------------------------
[[nodiscard]] Edit add_mark(const Show& show, SequenceId sequence, Micros time, std::string name);
/// Marks with their names, in one step.
[[nodiscard]] Edit add_marks(const Show& show, SequenceId sequence,
                             std::span<const std::pair<Micros, std::string>> marks);
/// The cues tied to it move along; it stops where one of them would begin before 0.
[[nodiscard]] Edit move_mark(const Show& show, SequenceId sequence, MarkId id, Micros time);
[[nodiscard]] Edit rename_mark(const Show& show, SequenceId sequence, MarkId id, std::string name);
/// Cues tied to it are freed where they stand.
[[nodiscard]] Edit remove_mark(const Show& show, SequenceId sequence, MarkId id);
/// Lengthens the sequence when the clip ends after it.
[[nodiscard]] Edit add_clip(const Show& show, SequenceId sequence, SoundClip clip);
[[nodiscard]] Edit set_clip(const Show& show, SequenceId sequence, const SoundClip& clip);
[[nodiscard]] Edit remove_clip(const Show& show, SequenceId sequence, ClipId id);
/// Two clips that sound as the one did; a fade cut through ends at the cut. Empty unless `at` is within it.
[[nodiscard]] Edit split_clip(const Show& show, SequenceId sequence, ClipId id, Micros at);
/// The same again, from `start` on. Lengthens the sequence when it ends after it.
[[nodiscard]] Edit duplicate_clip(const Show& show, SequenceId sequence, ClipId id, Micros start);
/// Cut to the clip's length, the fade-out to what the fade-in leaves of it.
[[nodiscard]] Edit set_clip_fades(const Show& show, SequenceId sequence, ClipId id, Micros fade_in,
                                  Micros fade_out);
[[nodiscard]] Edit move_clip_to_lane(const Show& show, SequenceId sequence, ClipId id, std::uint32_t lane);
/// A new gain for a clip.
struct ClipLevel {
    SequenceId sequence;
    ClipId clip;
    double gain_db = 0.0;
};
/// New gains, within their range, in one step.
[[nodiscard]] Edit set_clip_gains(const Show& show, std::span<const ClipLevel> levels);
/// Another file for whatever plays one: by its path, what it held, and where it is now.
struct MovedSound {
    std::string was;      ///< path in the show
    std::string content;  ///< of the clips that are meant; empty: of all with that path
    std::string is;
};
/// Names files anew that were moved, in one step; where a clip begins and ends stays. One that lies outside
/// the show's folder is passed over.
[[nodiscard]] Edit set_clip_files(const Show& show, std::span<const MovedSound> moved);

/// Sequences and the show
/// --------------------------------------------------------------------------------------
[[nodiscard]] Edit add_sequence(const Show& show, std::string name, SequenceKind kind, Micros length);
/// Empty for the only one: a show has at least one sequence.
[[nodiscard]] Edit remove_sequence(const Show& show, SequenceId id);
[[nodiscard]] Edit set_sequence_head(const Show& show, SequenceId id, SequenceHead head);
/// All that is in a sequence, sounds, marks and cues, later by `by` (earlier when negative), and its end with
/// it. None before 0 and none after 24 h: the shift is cut for all of them alike.
[[nodiscard]] Edit shift_sequence(const Show& show, SequenceId id, Micros by);
[[nodiscard]] Edit rename_show(const Show& show, std::string name);

/// The rig
/// -----------------------------------------------------------------------------------------------------
[[nodiscard]] Edit set_air_plant(const Show& show, AirPlant plant);
[[nodiscard]] Edit set_sensor(const Show& show, Sensor sensor);
[[nodiscard]] Edit set_speaker(const Show& show, Speaker speaker);
[[nodiscard]] Edit set_night(const Show& show, NightPlan night);
[[nodiscard]] Edit add_channel(const Show& show, Channel channel);  ///< the id is given here
[[nodiscard]] Edit set_channel(const Show& show, const Channel& channel);
/// Moves its lane to another place among the channels.
[[nodiscard]] Edit move_channel(const Show& show, ChannelId id, std::size_t index);
/// Takes its cues in every sequence, and every mention of it, along.
[[nodiscard]] Edit remove_channel(const Show& show, ChannelId id);
[[nodiscard]] Edit add_actuator(const Show& show, Actuator actuator);
[[nodiscard]] Edit set_actuator(const Show& show, const Actuator& actuator);
/// Channels that switch its valve stay, without it.
[[nodiscard]] Edit remove_actuator(const Show& show, ActuatorId id);
[[nodiscard]] Edit add_board(const Show& show, Board board);
[[nodiscard]] Edit set_board(const Show& show, const Board& board);
/// Channels on it stay, without an output.
[[nodiscard]] Edit remove_board(const Show& show, BoardId id);
[[nodiscard]] Edit add_supply(const Show& show, Supply supply);
[[nodiscard]] Edit set_supply(const Show& show, const Supply& supply);
/// What it fed stays, without a supply.
[[nodiscard]] Edit remove_supply(const Show& show, SupplyId id);

/// A name not yet taken among `taken`: `wanted` itself, else "wanted 2", "wanted 3"...
[[nodiscard]] std::string free_name(std::string_view wanted, std::span<const std::string> taken);

}  // namespace gasp
