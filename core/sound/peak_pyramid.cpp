// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peak_storage.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace gasp {

namespace {

constexpr std::int64_t segment_bins = PeakPyramid::segment_frames / PeakPyramid::bin_frames;

/// Peaks put together over one column.
class Column {
  public:
    void add(const Peak& peak, std::int64_t frames) {
        min_ = std::min(min_, peak.min);
        max_ = std::max(max_, peak.max);
        squares_ += static_cast<double>(peak.rms) * peak.rms * static_cast<double>(frames);
        frames_ += frames;
    }

    [[nodiscard]] Peak peak() const {
        if (frames_ == 0) {
            return {};
        }
        const double mean = squares_ / static_cast<double>(frames_);
        return {min_, max_, static_cast<std::uint16_t>(std::lrint(std::sqrt(mean)))};
    }

  private:
    std::int16_t min_ = INT16_MAX;
    std::int16_t max_ = INT16_MIN;
    double squares_ = 0.0;
    std::int64_t frames_ = 0;
};

/// Adds the bins [first, last) of a segment, the coarsest that fit.
void add_bins(const PeakSegment& segment, int channel, std::int64_t first, std::int64_t last,
              Column& column) {
    const std::int64_t end = (segment.frames() + PeakPyramid::bin_frames - 1) / PeakPyramid::bin_frames;
    const std::int64_t reach =
        last >= end ? segment_bins : last;  // the last bins of a short segment stand for more
    while (first < std::min(last, end)) {
        int level = 0;
        while (level + 1 < PeakPyramid::levels) {
            const std::int64_t coarser = std::int64_t{1} << (2 * (level + 1));
            if (first % coarser != 0 || first + coarser > reach) {
                break;
            }
            ++level;
        }
        const std::int64_t bin = first >> (2 * level);
        column.add(segment.level(channel, level)[static_cast<std::size_t>(bin)],
                   segment.frames_of(level, bin));
        first += std::int64_t{1} << (2 * level);
    }
}

/// Adds the samples of the sparse overview nearest to the frames [first, last).
void add_sparse(const SparseOverview& overview, int channel, int channels, double first, double last,
                Column& column) {
    const std::size_t count = overview.peaks.size() / static_cast<std::size_t>(channels);
    const auto begin = std::min(count - 1, static_cast<std::size_t>(first / overview.spacing));
    const auto end = std::min(count, static_cast<std::size_t>(std::ceil(last / overview.spacing)));
    for (std::size_t i = begin; i < std::max(end, begin + 1); ++i) {
        column.add(overview.peaks[static_cast<std::size_t>(channel) * count + i], PeakPyramid::bin_frames);
    }
}

}  // namespace

PeakPyramid::PeakPyramid(std::int64_t frames, int channels, int rate)
    : storage_(std::make_shared<Storage>(frames, channels, rate)) {}

std::int64_t PeakPyramid::frames() const {
    return storage_->frames;
}
int PeakPyramid::channels() const {
    return storage_->channels;
}
int PeakPyramid::rate() const {
    return storage_->rate;
}
std::int64_t PeakPyramid::built_frames() const {
    return storage_->built_frames;
}
bool PeakPyramid::complete() const {
    return storage_->complete;
}
std::int64_t PeakPyramid::true_frames() const {
    return storage_->true_frames;
}
std::size_t PeakPyramid::bytes() const {
    return storage_->bytes;
}

/// One column over the frames [from, to) of a file; whether all of it is built.
bool PeakPyramid::column(int channel, double from, double to, Peak& peak) const {
    const SparseOverview* overview = storage_->overview;
    Column column;
    bool whole = true;
    auto bin = static_cast<std::int64_t>(from / bin_frames);
    const auto last = std::max(bin + 1, static_cast<std::int64_t>(std::ceil(to / bin_frames)));
    while (bin < last) {
        const std::int64_t segment = bin / segment_bins;
        const std::int64_t first_bin = segment * segment_bins;
        const std::int64_t next = std::min(last, first_bin + segment_bins);
        const PeakSegment* built = storage_->segments[static_cast<std::size_t>(segment)];
        if (built != nullptr) {
            add_bins(*built, channel, bin - first_bin, next - first_bin, column);
        } else {
            whole = false;
            if (overview != nullptr) {
                const double first_frame = std::max(from, static_cast<double>(bin * bin_frames));
                const double last_frame = std::min(to, static_cast<double>(next * bin_frames));
                add_sparse(*overview, channel, storage_->channels, first_frame, last_frame, column);
            }
        }
        bin = next;
    }
    peak = column.peak();
    return whole;
}

void PeakPyramid::columns(int channel, double first, double step, std::span<Peak> out,
                          std::span<std::uint8_t> provisional) const {
    assert(step > 0.0 && channel >= 0 && channel < storage_->channels);
    const double frames = static_cast<double>(storage_->true_frames);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double from = std::max(0.0, first + static_cast<double>(i) * step);
        const double to = std::min(frames, first + static_cast<double>(i + 1) * step);
        out[i] = {};
        const bool whole = from >= frames || to <= 0.0 || column(channel, from, to, out[i]);
        if (!provisional.empty()) {
            provisional[i] = whole ? 0 : 1;
        }
    }
}

}  // namespace gasp
