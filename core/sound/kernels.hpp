// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstdint>
#include <span>

namespace gasp {

/// Sets NaN and infinities to 0.
void drop_nonfinite(std::span<float> samples);

/// Rounds samples of full scale 1 to 16 bits, half to even, clamped; NaN and infinities become 0. Both spans
/// are of one size.
void to_sixteen_bit(std::span<const float> samples, std::span<std::int16_t> out);

/// Smallest, largest and exact sum of squares of a stretch of one channel.
struct Extent {
    std::int16_t min = INT16_MAX;
    std::int16_t max = INT16_MIN;
    std::uint64_t squares = 0;

    void add(const Extent& other);
};

/// The extent of each channel of interleaved frames, added to what `extents` (one a channel) already holds.
void add_extents(std::span<const std::int16_t> interleaved, std::span<Extent> extents);

/// The same in plain C++: what other processors run, and what the tests compare with.
void add_extents_plain(std::span<const std::int16_t> interleaved, std::span<Extent> extents);

}  // namespace gasp
