// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/sound/kernels.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#if defined(__SSE2__)
#include <emmintrin.h>
#endif

namespace gasp {

void drop_nonfinite(std::span<float> samples) {
    for (float& sample : samples) {
        sample = std::isfinite(sample) ? sample : 0.0F;
    }
}

void Extent::add(const Extent& other) {
    min = std::min(min, other.min);
    max = std::max(max, other.max);
    squares += other.squares;
}

void add_extents_plain(std::span<const std::int16_t> interleaved, std::span<Extent> extents) {
    const std::size_t channels = extents.size();
    for (std::size_t i = 0; i + channels <= interleaved.size(); i += channels) {
        for (std::size_t channel = 0; channel < channels; ++channel) {
            const std::int16_t value = interleaved[i + channel];
            Extent& extent = extents[channel];
            extent.min = std::min(extent.min, value);
            extent.max = std::max(extent.max, value);
            const std::int64_t wide = value;
            extent.squares += static_cast<std::uint64_t>(wide * wide);
        }
    }
}

namespace {

std::int16_t rounded(float sample) {
    const float scaled = std::isfinite(sample) ? sample * 32768.0F : 0.0F;
    return static_cast<std::int16_t>(std::lrint(std::clamp(scaled, -32768.0F, 32767.0F)));
}

#if defined(__SSE2__)

/// Four samples as 32-bit integers, not finite ones as 0.
__m128i rounded_four(const float* samples) {
    const __m128 value = _mm_loadu_ps(samples);
    const __m128 magnitude = _mm_andnot_ps(_mm_set1_ps(-0.0F), value);
    const __m128 finite = _mm_cmplt_ps(magnitude, _mm_set1_ps(HUGE_VALF));
    const __m128 scaled = _mm_mul_ps(_mm_and_ps(value, finite), _mm_set1_ps(32768.0F));
    return _mm_cvtps_epi32(_mm_max_ps(_mm_min_ps(scaled, _mm_set1_ps(32767.0F)), _mm_set1_ps(-32768.0F)));
}

/// Running extents of eight 16-bit lanes, that of one channel or of two in turn. Two samples of a channel are
/// squared and added to 32 bits without sign; of two channels the left one's then lies in the even lanes.
struct Lanes {
    __m128i min = _mm_set1_epi16(INT16_MAX);
    __m128i max = _mm_set1_epi16(INT16_MIN);
    __m128i odd = _mm_setzero_si128();   ///< sums of the odd 32-bit lanes, in 64 bits
    __m128i both = _mm_setzero_si128();  ///< these shifted up by 32, and the even ones on top, modulo 2^64

    void add_one_channel(__m128i value) {
        bounds(value);
        squares(value);
    }

    /// left right left right ...
    void add_two_channels(__m128i value, __m128i next) {
        bounds(value);
        bounds(next);
        squares(_mm_unpacklo_epi16(value, next));
        squares(_mm_unpackhi_epi16(value, next));
    }

  private:
    void bounds(__m128i value) {
        min = _mm_min_epi16(min, value);
        max = _mm_max_epi16(max, value);
    }
    void squares(__m128i side_by_side) {
        const __m128i pairs = _mm_madd_epi16(side_by_side, side_by_side);
        both = _mm_add_epi64(both, pairs);
        odd = _mm_add_epi64(odd, _mm_srli_epi64(pairs, 32));
    }
};

__m128i load(const std::int16_t* samples) {
    __m128i value;
    __builtin_memcpy(&value, samples, sizeof value);
    return value;
}

/// The two 16-bit halves of the lowest 32.
std::array<std::int16_t, 2> lowest_two(__m128i lanes) {
    const auto both = static_cast<std::uint32_t>(_mm_cvtsi128_si32(lanes));
    return {static_cast<std::int16_t>(both), static_cast<std::int16_t>(both >> 16)};
}

/// Of two 64-bit lanes, modulo 2^64.
std::uint64_t sum(__m128i lanes) {
    std::array<std::uint64_t, 2> two{};
    __builtin_memcpy(two.data(), &lanes, sizeof two);
    return two[0] + two[1];
}

/// Folds lanes into the extents of one channel or two. Halves are folded onto each other until two lanes are
/// left, one of each channel where there are two.
void fold(Lanes lanes, std::span<Extent> extents) {
    constexpr int halves = 0x4E;
    constexpr int pairs = 0xB1;
    lanes.min = _mm_min_epi16(lanes.min, _mm_shuffle_epi32(lanes.min, halves));
    lanes.max = _mm_max_epi16(lanes.max, _mm_shuffle_epi32(lanes.max, halves));
    const auto min = lowest_two(_mm_min_epi16(lanes.min, _mm_shuffle_epi32(lanes.min, pairs)));
    const auto max = lowest_two(_mm_max_epi16(lanes.max, _mm_shuffle_epi32(lanes.max, pairs)));
    const std::uint64_t odd = sum(lanes.odd);
    const std::uint64_t even = sum(lanes.both) - (odd << 32);
    extents.front().add({min[0], max[0], even});
    extents.back().add({min[1], max[1], odd});
}

void add_one_or_two(std::span<const std::int16_t> interleaved, std::span<Extent> extents) {
    constexpr std::size_t lane_count = 8;
    constexpr std::size_t step = 2 * lane_count;
    const std::size_t whole = interleaved.size() - interleaved.size() % step;
    if (whole > 0) {
        Lanes lanes;
        const std::int16_t* const end = interleaved.data() + whole;
        for (const std::int16_t* at = interleaved.data(); at < end; at += step) {
            if (extents.size() == 1) {
                lanes.add_one_channel(load(at));
                lanes.add_one_channel(load(at + lane_count));
            } else {
                lanes.add_two_channels(load(at), load(at + lane_count));
            }
        }
        fold(lanes, extents);
    }
    add_extents_plain(interleaved.subspan(whole), extents);
}

#endif

}  // namespace

void to_sixteen_bit(std::span<const float> samples, std::span<std::int16_t> out) {
    std::size_t i = 0;
#if defined(__SSE2__)
    for (; i + 8 <= samples.size(); i += 8) {
        const __m128i packed =
            _mm_packs_epi32(rounded_four(samples.data() + i), rounded_four(samples.data() + i + 4));
        __builtin_memcpy(out.data() + i, &packed, sizeof packed);
    }
#endif
    for (; i < samples.size(); ++i) {
        out[i] = rounded(samples[i]);
    }
}

void add_extents(std::span<const std::int16_t> interleaved, std::span<Extent> extents) {
#if defined(__SSE2__)
    if (extents.size() <= 2) {
        add_one_or_two(interleaved, extents);
        return;
    }
#endif
    add_extents_plain(interleaved, extents);
}

}  // namespace gasp
