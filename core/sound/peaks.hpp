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
#include <vector>

namespace gasp {

/// Smallest and largest sample and the root mean square of a stretch, at 16-bit full scale.
struct Peak {
    std::int16_t min = 0;
    std::int16_t max = 0;
    std::uint16_t rms = 0;
    bool operator==(const Peak&) const = default;
};

/// Peaks of a sound file at many resolutions: bins of 256 frames, each further level four times coarser. It is
/// written by one builder and may be read at the same time by any thread: what is not built yet reads as provisional
/// or silent. Memory: about 1.6 % of the 16-bit PCM.
class PeakPyramid {
  public:
    static constexpr std::int64_t bin_frames = 256;
    static constexpr std::int64_t level_factor = 4;

    PeakPyramid(std::int64_t frames, int channels, int rate);

    [[nodiscard]] std::int64_t frames() const;
    [[nodiscard]] int channels() const;
    [[nodiscard]] int rate() const;
    /// Frames decoded so far, in order from the start; all of them when complete.
    [[nodiscard]] std::int64_t built_frames() const;
    [[nodiscard]] bool complete() const;
    /// The file turned out shorter or damaged: where it ended. Equal to frames() otherwise.
    [[nodiscard]] std::int64_t true_frames() const;
    [[nodiscard]] std::size_t bytes() const;

    /// One peak for each column: column i covers frames [first + i*step, first + (i+1)*step). Columns outside the
    /// file are zero. O(columns), whatever the step. `provisional` (same size, may be empty) is set to 1 where a
    /// column is drawn from the sparse first overview. Steps below bin_frames give the bin the column falls in.
    void columns(int channel, double first, double step, std::span<Peak> out,
                 std::span<std::uint8_t> provisional = {}) const;

  private:
    friend class PeakBuilder;
    struct Storage;
    std::shared_ptr<Storage> storage_;
};

/// Builds a pyramid: at once a sparse first overview where the format is slow to decode, then everything, in one pass
/// at about the speed of the decoder.
class PeakBuilder {
  public:
    struct Options {
        int threads = 2;  ///< more than one decodes compressed files from several places at once
    };

    /// Opens the file. The pyramid exists from then on; nothing is decoded yet.
    [[nodiscard]] static Result<PeakBuilder> open(const std::filesystem::path& path, Options options);

    [[nodiscard]] std::shared_ptr<const PeakPyramid> pyramid() const;

    /// Decodes. Blocking; call it on a worker thread. `progress` gets the share done, 0..1, now and then, from any
    /// of the worker threads; the work stops soon after `cancel` becomes true. Error: what could not be read, with
    /// the pyramid holding what could.
    [[nodiscard]] Result<void> build(const std::atomic<bool>& cancel, const std::function<void(double)>& progress);
    /// Only the sparse overview of `columns` columns; part of build() for compressed files.
    void overview(int columns, const std::atomic<bool>& cancel);

  private:
    struct State;
    std::shared_ptr<State> state_;
};

}  // namespace gasp
