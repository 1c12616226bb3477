// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/kernels.hpp"
#include "core/sound/peaks.hpp"

#include <array>
#include <atomic>
#include <cstdint>
#include <memory>
#include <span>
#include <vector>

namespace gasp {

/// The peak of an extent over so many frames of one channel.
[[nodiscard]] Peak peak_of(const Extent& extent, std::int64_t frames);

/// All levels of one stretch of PeakPyramid::segment_frames frames, or fewer at the end of the file. Never
/// changed once it is published.
class PeakSegment {
  public:
    PeakSegment(std::int64_t frames, int channels);

    [[nodiscard]] std::int64_t frames() const { return frames_; }
    [[nodiscard]] std::span<Peak> level(int channel, int level);
    [[nodiscard]] std::span<const Peak> level(int channel, int level) const;
    [[nodiscard]] std::size_t bytes() const { return peaks_.size() * sizeof(Peak); }

    /// The frames a bin of a level has: those of the level but for the last of the segment.
    [[nodiscard]] std::int64_t frames_of(int level, std::int64_t bin) const;

  private:
    std::int64_t frames_;
    std::array<std::size_t, PeakPyramid::levels + 1>
        offsets_{};  ///< of each level within one channel's peaks
    std::vector<Peak> peaks_;
};

/// A peak of one bin for every `spacing` frames.
struct SparseOverview {
    double spacing = 0.0;
    std::vector<Peak> peaks;  ///< channel after channel
};

/// What readers and the builder share. A segment is published by one store of its pointer, so readers see it
/// whole or not at all, and never wait.
struct PeakPyramid::Storage {
    Storage(std::int64_t frames, int channels, int rate);
    ~Storage();
    Storage(const Storage&) = delete;
    Storage& operator=(const Storage&) = delete;

    /// Once for each segment.
    void publish(std::int64_t segment, std::unique_ptr<const PeakSegment> built);
    void publish(std::unique_ptr<const SparseOverview> built);

    const std::int64_t frames;
    const int channels;
    const int rate;
    std::vector<std::atomic<const PeakSegment*>> segments;
    std::atomic<const SparseOverview*> overview{nullptr};
    std::atomic<std::int64_t> built_frames{0};
    std::atomic<std::int64_t> true_frames;
    std::atomic<bool> complete{false};
    std::atomic<std::size_t> bytes;
};

}  // namespace gasp
