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

/// Running extents of eight 16-bit lanes. Lanes are paired before squaring: where a vector holds one channel
/// its neighbours are paired, where it holds two in turn they are first brought side by side. A pair of
/// squares needs 32 bits without sign; it is then added up in 64.
struct Lanes {
    __m128i min = _mm_set1_epi16(INT16_MAX);
    __m128i max = _mm_set1_epi16(INT16_MIN);
    __m128i squares = _mm_setzero_si128();

    void add_one_channel(__m128i value) {
        bounds(value);
        const __m128i pairs = _mm_madd_epi16(value, value);
        const __m128i zero = _mm_setzero_si128();
        squares = _mm_add_epi64(squares, _mm_unpacklo_epi32(pairs, zero));
        squares = _mm_add_epi64(squares, _mm_unpackhi_epi32(pairs, zero));
    }

    /// left right left right ...: the low half of `squares` is the left.
    void add_two_channels(__m128i value) {
        const __m128i side_by_side = _mm_shufflehi_epi16(_mm_shufflelo_epi16(value, 0xD8), 0xD8);
        bounds(value);
        const __m128i pairs = _mm_madd_epi16(side_by_side, side_by_side);
        const __m128i zero = _mm_setzero_si128();
        squares = _mm_add_epi64(squares, _mm_unpacklo_epi32(pairs, zero));
        squares = _mm_add_epi64(squares, _mm_unpackhi_epi32(pairs, zero));
    }

  private:
    void bounds(__m128i value) {
        min = _mm_min_epi16(min, value);
        max = _mm_max_epi16(max, value);
    }
};

__m128i load(const std::int16_t* samples) {
    __m128i value;
    __builtin_memcpy(&value, samples, sizeof value);
    return value;
}

/// Folds lanes into the extents of one channel or two.
void fold(const Lanes& lanes, std::span<Extent> extents) {
    std::array<std::int16_t, 8> min{};
    std::array<std::int16_t, 8> max{};
    std::array<std::uint64_t, 2> squares{};
    __builtin_memcpy(min.data(), &lanes.min, sizeof min);
    __builtin_memcpy(max.data(), &lanes.max, sizeof max);
    __builtin_memcpy(squares.data(), &lanes.squares, sizeof squares);
    for (std::size_t lane = 0; lane < min.size(); ++lane) {
        extents[lane % extents.size()].add({min[lane], max[lane], 0});
    }
    for (std::size_t half = 0; half < squares.size(); ++half) {
        extents[half % extents.size()].squares += squares[half];
    }
}

void add_one_or_two(std::span<const std::int16_t> interleaved, std::span<Extent> extents) {
    const std::size_t whole = interleaved.size() - interleaved.size() % 8;
    if (whole > 0) {
        Lanes lanes;
        if (extents.size() == 1) {
            for (std::size_t i = 0; i < whole; i += 8) {
                lanes.add_one_channel(load(interleaved.data() + i));
            }
        } else {
            for (std::size_t i = 0; i < whole; i += 8) {
                lanes.add_two_channels(load(interleaved.data() + i));
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
