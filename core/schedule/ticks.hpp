// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <cstdint>

namespace gasp {

/// Rounds to the tick, half away from zero.
[[nodiscard]] constexpr Micros on_tick(Micros time, Micros tick) {
    const auto half = tick.count() / 2;
    const auto moved = time.count() < 0 ? time.count() - half : time.count() + half;
    // An odd tick has no exact middle: half of it, rounded down, still moves everything nearer to the next
    // one up.
    return Micros{moved / tick.count() * tick.count()};
}

/// on_tick for many moments: a multiplication by the reciprocal of the tick takes the place of the division,
/// and gives the same for every moment from 0 on.
class Ticks {
  public:
    /// Requires: a tick above 0.
    explicit constexpr Ticks(Micros tick)
        : tick_(static_cast<std::uint64_t>(tick.count())), reciprocal_(~std::uint64_t{0} / tick_) {}

    struct Nearest {
        std::uint64_t ticks;  ///< from 0
        Micros off;           ///< how far the moment is from it
    };

    /// The tick nearest to a moment. Requires: moment at 0 or later.
    [[nodiscard]] constexpr Nearest nearest(Micros moment) const {
        const std::uint64_t half = tick_ / 2;
        const std::uint64_t moved = static_cast<std::uint64_t>(moment.count()) + half;
        // The reciprocal is rounded down, by less than 2 of its units: the product is right or one short.
        const auto short_or_right = static_cast<std::uint64_t>((Wide{moved} * reciprocal_) >> 64);
        const std::uint64_t rest = moved - short_or_right * tick_;
        const bool one_short = rest >= tick_;
        const std::uint64_t past = one_short ? rest - tick_ : rest;
        return {short_or_right + (one_short ? 1U : 0U),
                Micros{static_cast<Micros::rep>(past > half ? past - half : half - past)}};
    }

    [[nodiscard]] constexpr Micros moment(std::uint64_t ticks) const {
        return Micros{static_cast<Micros::rep>(ticks * tick_)};
    }

  private:
    __extension__ using Wide = unsigned __int128;  // GCC and Clang; standard C++ has none

    std::uint64_t tick_;
    std::uint64_t reciprocal_;
};

}  // namespace gasp
