// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/sound_window.hpp"

#include "core/sound/sound_file.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr std::int64_t skip_frames = 8192;

/// Decodes up to a frame of a file that cannot seek; false where it ends before.
bool skip_to(SoundFile& file, std::int64_t frame) {
    std::vector<std::int16_t> block(static_cast<std::size_t>(skip_frames * file.info().channels));
    while (frame > 0) {
        const auto wanted = static_cast<std::size_t>(std::min(frame, skip_frames) * file.info().channels);
        const std::int64_t got = file.read(std::span(block).first(wanted));
        if (got == 0) {
            return false;
        }
        frame -= got;
    }
    return true;
}

class Line {
  public:
    Line(const SoundWindow& window, int channel) : window_(window), channel_(channel) {}

    [[nodiscard]] double sample(std::int64_t frame) const {
        const auto place = static_cast<std::size_t>((frame - window_.first) * window_.channels + channel_);
        return window_.samples[place];
    }
    /// Between two samples, on the straight line that joins them.
    [[nodiscard]] double at(double place) const {
        const auto last = static_cast<double>(window_.end() - 1);
        const double held = std::clamp(place, static_cast<double>(window_.first), last);
        const auto before = static_cast<std::int64_t>(held);
        const std::int64_t after = std::min(before + 1, window_.end() - 1);
        return std::lerp(sample(before), sample(after), held - static_cast<double>(before));
    }

  private:
    const SoundWindow& window_;
    int channel_;
};

Peak peak_of(const Line& line, double from, double to, std::int64_t first, std::int64_t last) {
    double least = std::min(line.at(from), line.at(to));
    double most = std::max(line.at(from), line.at(to));
    double squares = 0.0;
    for (std::int64_t frame = first; frame < last; ++frame) {
        const double sample = line.sample(frame);
        least = std::min(least, sample);
        most = std::max(most, sample);
        squares += sample * sample;
    }
    const std::int64_t count = last - first;
    const double rms = count > 1 ? std::sqrt(squares / static_cast<double>(count)) : 0.0;
    return {static_cast<std::int16_t>(std::lround(least)), static_cast<std::int16_t>(std::lround(most)),
            static_cast<std::uint16_t>(std::lround(rms))};
}

}  // namespace

Result<SoundWindow> read_window(const std::filesystem::path& path, std::int64_t first, std::int64_t frames) {
    Result<SoundFile> file = SoundFile::open(path);
    if (!file) {
        return tl::unexpected(file.error());
    }
    SoundWindow window{std::max<std::int64_t>(0, first), file->info().channels, {}};
    const std::int64_t wanted = std::clamp<std::int64_t>(file->info().frames - window.first, 0, frames);
    if (wanted == 0 || !(file->seek(window.first) || skip_to(*file, window.first))) {
        return window;
    }
    window.samples.resize(static_cast<std::size_t>(wanted * window.channels));
    const std::int64_t got = file->read(std::span(window.samples));
    window.samples.resize(static_cast<std::size_t>(got * window.channels));
    return window;
}

void columns(const SoundWindow& window, int channel, double first, double step, std::span<Peak> out) {
    const Line line(window, channel);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const double from = first + static_cast<double>(i) * step;
        const double to = from + step;
        const auto begin = std::max(window.first, static_cast<std::int64_t>(std::ceil(from)));
        const auto end = std::min(window.end(), static_cast<std::int64_t>(std::ceil(to)));
        const bool outside =
            to <= static_cast<double>(window.first) || from >= static_cast<double>(window.end());
        out[i] = outside ? Peak{} : peak_of(line, from, to, begin, std::max(begin, end));
    }
}

}  // namespace gasp
