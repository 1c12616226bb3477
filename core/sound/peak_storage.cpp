// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/peak_storage.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr std::int64_t frames_at(int level) {
    return PeakPyramid::bin_frames << (2 * level);
}

constexpr std::int64_t divide_up(std::int64_t value, std::int64_t by) {
    return (value + by - 1) / by;
}

}  // namespace

Peak peak_of(const Extent& extent, std::int64_t frames) {
    if (frames <= 0) {
        return {};
    }
    const double mean = static_cast<double>(extent.squares) / static_cast<double>(frames);
    return {extent.min, extent.max, static_cast<std::uint16_t>(std::sqrt(mean) + 0.5)};
}

PeakSegment::PeakSegment(std::int64_t frames, int channels) : frames_(frames) {
    for (int level = 0; level < PeakPyramid::levels; ++level) {
        const auto index = static_cast<std::size_t>(level);
        offsets_[index + 1] = offsets_[index] + static_cast<std::size_t>(divide_up(frames, frames_at(level)));
    }
    peaks_.resize(offsets_.back() * static_cast<std::size_t>(channels));
}

std::span<Peak> PeakSegment::level(int channel, int level) {
    const std::size_t first = offsets_[static_cast<std::size_t>(level)];
    const std::size_t last = offsets_[static_cast<std::size_t>(level) + 1];
    return std::span(peaks_).subspan(static_cast<std::size_t>(channel) * offsets_.back() + first,
                                     last - first);
}

std::span<const Peak> PeakSegment::level(int channel, int level) const {
    const std::size_t first = offsets_[static_cast<std::size_t>(level)];
    const std::size_t last = offsets_[static_cast<std::size_t>(level) + 1];
    return std::span(peaks_).subspan(static_cast<std::size_t>(channel) * offsets_.back() + first,
                                     last - first);
}

std::int64_t PeakSegment::frames_of(int level, std::int64_t bin) const {
    return std::min(frames_at(level), frames_ - bin * frames_at(level));
}

PeakPyramid::Storage::Storage(std::int64_t file_frames, int file_channels, int file_rate)
    : frames(file_frames),
      channels(file_channels),
      rate(file_rate),
      segments(static_cast<std::size_t>(divide_up(file_frames, segment_frames))),
      true_frames(file_frames),
      bytes(segments.size() * sizeof segments[0]) {}

PeakPyramid::Storage::~Storage() {
    for (const auto& segment : segments) {
        delete segment.load();
    }
    delete overview.load();
}

void PeakPyramid::Storage::publish(std::int64_t segment, std::unique_ptr<const PeakSegment> built) {
    bytes += built->bytes();
    segments[static_cast<std::size_t>(segment)] = built.release();
}

void PeakPyramid::Storage::publish(std::unique_ptr<const SparseOverview> built) {
    // A reader may hold the first overview: it stays, and a later one is dropped.
    const SparseOverview* none = nullptr;
    const std::size_t size = built->peaks.size() * sizeof(Peak);
    if (overview.compare_exchange_strong(none, built.get())) {
        bytes += size;
        built.release();
    }
}

}  // namespace gasp
