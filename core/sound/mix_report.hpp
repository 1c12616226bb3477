// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/loudness_meter.hpp"
#include "core/units/error.hpp"

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// From this level on a mix is taken to be heard (common practice, no source).
inline constexpr double heard_from_dbfs = -60.0;

/// What there is to tell of the mix of a sequence, or of a clip as it sounds in it.
struct MixReport {
    int rate = 0;
    std::int64_t frames = 0;               ///< measured
    std::optional<double> loudness_lufs;   ///< integrated, gated; empty when it is silent
    std::optional<LoudestMoment> loudest;  ///< on the ruler; empty when it is silent
    std::optional<double> true_peak_dbtp;
    std::optional<double> peak_dbfs;
    std::int64_t clipped_samples = 0;   ///< beyond full scale: they are cut off where samples are integers
    std::optional<Micros> first_sound;  ///< on the ruler: the first sample of at least heard_from_dbfs
    std::vector<Error> problems;        ///< sounds that are missing in it
};

/// Where the mix goes while it is measured: false ends it.
using MixSink = std::function<bool(std::span<const float> stereo)>;

/// Mixes a sequence from a frame on to its end and measures it. `progress` (may be empty) gets the share
/// done; the work stops soon after `cancel` becomes true: what was measured until then comes back. Blocking.
/// Requires: rate > 0, from >= 0.
[[nodiscard]] MixReport run_mix(const Sequence& sequence, const std::filesystem::path& show_folder, int rate,
                                std::int64_t from, const MixSink& sink, const std::atomic<bool>& cancel,
                                const std::function<void(double)>& progress);

/// The rate at which a mix is measured and handed over, where nobody chose another: that of compact discs,
/// which every player takes.
inline constexpr int mix_rate = 44100;

/// The whole mix of a sequence.
[[nodiscard]] MixReport report_of_mix(const Sequence& sequence, const std::filesystem::path& show_folder,
                                      const std::atomic<bool>& cancel,
                                      const std::function<void(double)>& progress);
/// One clip alone, with its gain and fades, where it stands.
[[nodiscard]] MixReport report_of_clip(const SoundClip& clip, const std::filesystem::path& show_folder,
                                       const std::atomic<bool>& cancel,
                                       const std::function<void(double)>& progress);

}  // namespace gasp
