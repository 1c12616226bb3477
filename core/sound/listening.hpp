// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "core/units/time.hpp"

#include <atomic>
#include <filesystem>
#include <functional>
#include <vector>

namespace gasp {

/// How loud a sound is over time: the RMS of all its channels together in 10 ms around each step.
struct Envelope {
    static constexpr Micros step{5000};
    std::vector<float> dbfs;  ///< at 0, one step, two steps...; at least `silence`

    static constexpr float silence = -120.0F;
    [[nodiscard]] Micros length() const { return step * static_cast<Micros::rep>(dbfs.size()); }
};

struct OnsetOptions {
    double threshold = 0.3;  ///< of the peak picker, above 0; higher finds fewer
    double silence_dbfs = -50.0;
    double least_gap_ms = 80.0;
    bool operator==(const OnsetOptions&) const = default;
};

/// Error: the option that is out of range.
[[nodiscard]] Result<void> valid(const OnsetOptions& options);

/// What one pass over a sound file hears, from the start of the file.
struct Heard {
    Envelope envelope;
    std::vector<Micros> onsets;  ///< rising
};

/// Decodes a file once and finds its envelope and its onsets (high-frequency content and an adaptive
/// threshold; P. Brossier's aubio). Blocking, for a worker thread; `progress` (may be empty) gets the share
/// done, 0..1. Error: as SoundFile::open; options out of range; cancelled.
[[nodiscard]] Result<Heard> listen(const std::filesystem::path& path, const OnsetOptions& options,
                                   const std::atomic<bool>& cancel,
                                   const std::function<void(double)>& progress);

}  // namespace gasp
