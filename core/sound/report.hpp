// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/loudness_meter.hpp"
#include "core/sound/sound_file.hpp"

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <vector>

namespace gasp {

/// Levels of one channel. 0 dBFS is a sample of full scale, and for the rms a square wave of full scale: a
/// sine of full scale reads -3.01. Empty for a channel of zeros.
struct ChannelLevel {
    std::optional<double> peak_dbfs;
    std::optional<double> rms_dbfs;
    std::int64_t clipped_samples = 0;  ///< at or beyond the largest positive value of the format, either sign
};

/// What there is to tell of a sound file as a whole.
struct SoundReport {
    SoundInfo info;
    std::int64_t frames = 0;  ///< decoded; fewer than info.frames where the file is cut or damaged
    std::vector<ChannelLevel> channels;
    /// Frames before the first sample within 40 dB of the file's peak; all of them when it is silent.
    std::int64_t leading_silence_frames = 0;
    /// Integrated, gated: ITU-R BS.1770 and EBU R 128. Mono counts as one channel. Empty when all is below
    /// the gate or shorter than 0.4 s.
    std::optional<double> loudness_lufs;
    std::optional<LoudestMoment> loudest;  ///< empty for silence
    std::optional<double> true_peak_dbtp;  ///< the highest of the channels; ITU-R BS.1770, annex 2
};

/// Decodes the whole file, and its beginning twice. Blocking, for a worker thread; `progress` (may be empty)
/// gets the share done. Error: as SoundFile::open, or nothing can be decoded, or it was cancelled.
[[nodiscard]] Result<SoundReport> sound_report(const std::filesystem::path& path,
                                               const std::atomic<bool>& cancel,
                                               const std::function<void(double)>& progress);

}  // namespace gasp
