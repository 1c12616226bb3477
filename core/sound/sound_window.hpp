// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/peaks.hpp"

#include <cstdint>
#include <filesystem>
#include <span>
#include <vector>

namespace gasp {

/// The very samples of a stretch of a sound file, for drawing where the bins of its peaks are too coarse.
struct SoundWindow {
    std::int64_t first = 0;  ///< frame of the file
    int channels = 1;
    std::vector<std::int16_t> samples;  ///< interleaved

    [[nodiscard]] std::int64_t end() const {
        return first + static_cast<std::int64_t>(samples.size()) / channels;
    }
};

/// Reads frames [first, first + frames) as far as the file has them. Seeks, or decodes up to there where the
/// format cannot. Error: as SoundFile::open.
[[nodiscard]] Result<SoundWindow> read_window(const std::filesystem::path& path, std::int64_t first,
                                              std::int64_t frames);

/// One peak for each column, as PeakPyramid::columns() does, of the line that joins the samples: a column
/// between two samples has the part of the line within it, and neighbouring columns always meet. Its rms is
/// that of the samples in it, or 0 where there is at most one. Columns outside the window are zero.
/// Requires: step > 0, channel within window.channels.
void columns(const SoundWindow& window, int channel, double first, double step, std::span<Peak> out);

}  // namespace gasp
