// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/stage/play_clock.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {

namespace {

constexpr double pull = 0.1;          ///< share of the error taken with each reading
constexpr double jump_us = 60'000.0;  ///< beyond this the device has stood still or skipped: follow at once
constexpr Micros furthest_ahead{100'000};  ///< of the last reading

}  // namespace

void PlayClock::reading(Micros now, Micros played) {
    if (last_reading_ == played) {
        return;
    }
    const bool moves = last_reading_.has_value();
    last_reading_ = played;
    if (!moves) {
        last_answer_ = std::max(last_answer_, played);
        return;
    }
    const auto offset = static_cast<double>((played - now).count());
    if (!offset_us_ || std::abs(offset - *offset_us_) > jump_us) {
        offset_us_ = offset;
    } else {
        *offset_us_ += pull * (offset - *offset_us_);
    }
}

void PlayClock::restart() {
    last_reading_.reset();
    offset_us_.reset();
}

Micros PlayClock::at(Micros now) {
    if (offset_us_) {
        const Micros estimate = now + Micros{std::llround(*offset_us_)};
        last_answer_ = std::max(last_answer_, std::min(estimate, *last_reading_ + furthest_ahead));
    }
    return last_answer_;
}

}  // namespace gasp
