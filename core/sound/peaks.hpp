// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/sound/sound_file.hpp"

#include <atomic>
#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <span>

namespace gasp {

/// Smallest and largest sample and the root mean square of a stretch, at 16-bit full scale.
struct Peak {
    std::int16_t min = 0;
    std::int16_t max = 0;
    std::uint16_t rms = 0;
    bool operator==(const Peak&) const = default;
};

/// Peaks of a sound file at many resolutions: bins of 256 frames, each further level four times coarser. It
/// is written by one builder and may be read at the same time by any thread: what is not built yet reads as
/// provisional or silent. The bins appear in stretches of segment_frames. Memory: about 1.6 % of the 16-bit
/// PCM.
class PeakPyramid {
  public:
    static constexpr std::int64_t bin_frames = 256;
    static constexpr std::int64_t level_factor = 4;
    static constexpr int levels = 7;
    static constexpr std::int64_t segment_frames = bin_frames
                                                   << (2 * (levels - 1));  ///< one bin of the top level

    PeakPyramid(std::int64_t frames, int channels, int rate);

    [[nodiscard]] std::int64_t frames() const;
    [[nodiscard]] int channels() const;
    [[nodiscard]] int rate() const;
    /// Frames decoded so far, in order from the start; all of them when complete.
    [[nodiscard]] std::int64_t built_frames() const;
    /// Nothing more is coming: the file was read to its end, or to where it is damaged.
    [[nodiscard]] bool complete() const;
    /// The file turned out shorter or damaged: where it ended. Equal to frames() otherwise.
    [[nodiscard]] std::int64_t true_frames() const;
    [[nodiscard]] std::size_t bytes() const;

    /// One peak for each column: column i covers frames [first + i*step, first + (i+1)*step) and takes every
    /// bin of bin_frames it touches, whole; its rms is exact to the rounding of the bins' own. Columns
    /// outside the file are zero. `provisional` (same size, may be empty) is set to 1 where part of a column
    /// is not built yet: such a column shows what there is, the sparse first overview included. Requires:
    /// step > 0, channel within channels(). Cost: O(columns + segments covered), whatever the step.
    void columns(int channel, double first, double step, std::span<Peak> out,
                 std::span<std::uint8_t> provisional = {}) const;

  private:
    friend class PeakBuilder;
    bool column(int channel, double from, double to, Peak& peak) const;
    struct Storage;
    std::shared_ptr<Storage> storage_;
};

/// Builds a pyramid: at once a sparse first overview where the format is slow to decode, then everything, in
/// one pass at about the speed of the decoder. The result does not depend on the number of threads.
class PeakBuilder {
  public:
    struct Options {
        int threads = 2;  ///< more than one decode from several places at once where the format seeks exactly
    };

    /// Opens the file. The pyramid exists from then on; nothing is decoded yet.
    [[nodiscard]] static Result<PeakBuilder> open(const std::filesystem::path& path, Options options);

    [[nodiscard]] std::shared_ptr<const PeakPyramid> pyramid() const;

    /// Decodes. Blocking; call it once, on a worker thread. `progress` (may be empty) gets the share done,
    /// 0..1 and never falling, now and then, from any of the worker threads but one at a time; the work stops
    /// soon after `cancel` becomes true, which is no error but leaves the pyramid incomplete. Error: what
    /// could not be read, with the pyramid holding what could.
    [[nodiscard]] Result<void> build(const std::atomic<bool>& cancel,
                                     const std::function<void(double)>& progress);
    /// Only the sparse overview of `columns` columns; part of build() for long compressed files.
    void overview(int columns, const std::atomic<bool>& cancel);

  private:
    struct State;
    std::shared_ptr<State> state_;
};

}  // namespace gasp
