// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <span>
#include <utility>

namespace gasp {

/// Sorts by an unsigned 64-bit key, stably, in time proportional to the count: a counting pass for each digit
/// that any key uses, none where all are in order already. `other` is room for as many items. Gives back the
/// one of the two that holds them in order; the other holds nothing of use.
template <class T, class Key>
[[nodiscard]] std::span<T> radix_sort(std::span<T> items, std::span<T> other, Key key) {
    constexpr unsigned most_digit_bits = 11;
    std::uint64_t used = 0;
    std::uint64_t before = 0;
    bool in_order = true;
    for (const T& item : items) {
        const std::uint64_t now = key(item);
        in_order = in_order && before <= now;
        used |= now;
        before = now;
    }
    if (in_order) {
        return items;
    }
    // Few items are not worth many counters.
    const auto key_bits = static_cast<unsigned>(std::bit_width(used));
    const unsigned widest =
        std::clamp(static_cast<unsigned>(std::bit_width(items.size())), 4U, most_digit_bits);
    const unsigned passes = (key_bits + widest - 1) / widest;
    const unsigned digit_bits = (key_bits + passes - 1) / passes;
    const std::size_t digits = std::size_t{1} << digit_bits;
    std::array<std::uint32_t, std::size_t{1} << most_digit_bits> place;
    for (unsigned shift = 0; shift < key_bits; shift += digit_bits) {
        std::fill_n(place.begin(), digits, 0U);
        for (const T& item : items) {
            ++place[(key(item) >> shift) & (digits - 1)];
        }
        std::uint32_t total = 0;
        for (std::size_t digit = 0; digit < digits; ++digit) {
            total += std::exchange(place[digit], total);
        }
        for (const T& item : items) {
            other[place[(key(item) >> shift) & (digits - 1)]++] = item;
        }
        std::swap(items, other);
    }
    return items;
}

}  // namespace gasp
