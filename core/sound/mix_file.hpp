// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/sound/mix_report.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace gasp {

// The mix of a sequence as a file for a player that starts with the run.
//
// The moment 0 of the table is the start of the run. A player that is told to start then is heard only after
// its lag (Speaker::player_lag_ms), and what it plays first is the head of its file. So the file leaves out
// as much of the mix's head as the player is late: whatever the file still holds is then heard at its place
// on the ruler, against cues that stay as they are. Of a mix that is silent for that long nothing is lost.
// What sounds sooner cannot be heard in time by any file: `lost_to_lag` says how much, the check "player_lag"
// finds it, and the remedy is to begin sound and cues later.

enum class MixForm : std::uint8_t { wav, flac };

/// How the mix is handed over.
struct MixDelivery {
    MixForm form = MixForm::wav;  ///< 16-bit PCM, stereo, either way
    int rate = mix_rate;
    Micros lag{0};  ///< of the player
};

/// The player's lag as the rig has it; 0 where it is blank.
[[nodiscard]] Micros player_lag(const Speaker& speaker);

/// How much of what would be heard a player of that lag cannot play in time.
[[nodiscard]] Micros lost_to_lag(const MixReport& whole, Micros lag);

/// "001-keepers-locker.wav": the place of the sequence in the show, counted from 1, and its name in small
/// plain letters, which is as much as simple players read.
[[nodiscard]] std::string mix_file_name(std::size_t place, std::string_view sequence, MixForm form);

/// Writes the mix of a sequence: samples are rounded to 16 bits and cut off at full scale, nothing is made
/// quieter. The file appears when it is whole, in place of one of that name; until then, and after an error
/// or a cancel, there is none of it. Returns what was written, measured. Error: a sound that cannot be
/// opened, a folder or disk that does not take it, more than a WAV file holds, cancelled.
[[nodiscard]] Result<MixReport> write_mix(const Sequence& sequence, const std::filesystem::path& show_folder,
                                          const MixDelivery& delivery, const std::filesystem::path& path,
                                          const std::atomic<bool>& cancel,
                                          const std::function<void(double)>& progress);

}  // namespace gasp
