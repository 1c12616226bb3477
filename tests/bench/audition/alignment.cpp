// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/audition/alignment.hpp"

#include <algorithm>

namespace gasp::bench {

namespace {

constexpr std::int64_t rate = 48'000;
constexpr double us_a_frame = 1e6 / rate;
constexpr std::int64_t probe = 480;
constexpr std::int64_t probes_apart = 240;
/// How far a second may be from where the one before lets it be looked for.
constexpr std::int64_t reach = rate / 2;
constexpr std::int64_t faded_in = 240;

std::span<const std::int16_t> frames_of(std::span<const std::int16_t> stereo, std::int64_t first,
                                        std::int64_t count) {
    return stereo.subspan(2 * static_cast<std::size_t>(first), 2 * static_cast<std::size_t>(count));
}

bool same(std::span<const std::int16_t> recorded, std::span<const std::int16_t> mix, std::int64_t offset,
          std::int64_t first, std::int64_t count) {
    const auto frames = static_cast<std::int64_t>(recorded.size() / 2);
    return first + offset >= 0 && first + offset + count <= frames &&
           std::ranges::equal(frames_of(recorded, first + offset, count), frames_of(mix, first, count));
}

/// Whether a stretch can be told from every other.
bool tells(std::span<const std::int16_t> stretch) {
    const auto [low, high] = std::ranges::minmax(stretch);
    return high - low > 2000;
}

/// By how many frames the recording is later than the mix, of which the frames [first, last) are looked for
/// among the recorded ones from `from` to `to`.
std::optional<std::int64_t> offset_of(std::span<const std::int16_t> recorded,
                                      std::span<const std::int16_t> mix, std::int64_t first,
                                      std::int64_t last, std::int64_t from, std::int64_t to) {
    for (std::int64_t at = last - probe; at >= first; at -= probes_apart) {
        if (!tells(frames_of(mix, at, probe))) {
            continue;
        }
        for (std::int64_t there = std::max<std::int64_t>(from, 0); there <= to; ++there) {
            if (same(recorded, mix, there - at, at, probe)) {
                return there - at;
            }
        }
        return std::nullopt;
    }
    return std::nullopt;
}

/// When the recording's first frame would have been heard, by the stamps about a frame: their median, for
/// each of them is late by what kept the recorder from looking.
double began_us(std::span<const HeardAt> stamps, std::int64_t frame) {
    const auto first = std::ranges::lower_bound(stamps, frame - 2 * rate, {}, &HeardAt::frame);
    const auto last = std::ranges::lower_bound(stamps, frame + 3 * rate, {}, &HeardAt::frame);
    std::vector<double> starts;
    for (auto stamp = first; stamp != last; ++stamp) {
        starts.push_back(static_cast<double>(stamp->time_us) -
                         static_cast<double>(stamp->frame) * us_a_frame);
    }
    std::ranges::sort(starts);
    return starts.empty() ? 0.0 : starts[starts.size() / 2];
}

}  // namespace

Alignment::Alignment(const Recording& recording, std::span<const std::int16_t> mix) {
    const std::span<const std::int16_t> recorded(recording.stereo);
    const auto mixed = static_cast<std::int64_t>(mix.size() / 2);
    std::optional<std::int64_t> offset;
    for (std::int64_t first = 0; first + rate <= mixed; first += rate) {
        const std::int64_t begin = std::max(first, faded_in);
        const std::int64_t end = std::min(first + rate, mixed - faded_in);
        const bool whole = offset && same(recorded, mix, *offset, begin, end - begin);
        if (whole) {
            const std::int64_t at = begin + *offset;
            seconds_.push_back({at, begin, began_us(recording.stamps, at)});
            continue;
        }
        const std::int64_t from = offset ? first + *offset - reach : 0;
        const std::int64_t to =
            offset ? end + *offset + reach : static_cast<std::int64_t>(recorded.size() / 2);
        const bool first_sight = !offset;
        if (const auto again = offset_of(recorded, mix, begin, end, from, to)) {
            offset = again;
        }
        if (first_sight && offset) {
            first = -rate;  // begin anew, knowing where it is
            continue;
        }
        broken_ += offset ? 1 : 0;
    }
}

std::optional<double> Alignment::frame_at(std::int64_t time_us) const {
    for (auto second = seconds_.rbegin(); second != seconds_.rend(); ++second) {
        const double recorded = (static_cast<double>(time_us) - second->began_us) / us_a_frame;
        const double into = recorded - static_cast<double>(second->recorded);
        if (into >= 0.0) {
            return into < rate ? std::optional(static_cast<double>(second->mixed) + into) : std::nullopt;
        }
    }
    return std::nullopt;
}

}  // namespace gasp::bench
