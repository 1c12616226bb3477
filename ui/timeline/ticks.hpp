// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/time.hpp"

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// The spacing of the ruler: 1-2-5 below a second, then 1, 2, 5, 10, 30 s, the same of minutes, and hours.
struct TickScale {
    Micros labelled{0};  ///< between ticks with a label
    Micros plain{0};     ///< between ticks; divides `labelled`
    int decimals = 0;    ///< of the seconds in a label
    bool operator==(const TickScale&) const = default;
};

struct Tick {
    Micros time{0};
    bool labelled = false;
    bool operator==(const Tick&) const = default;
};

/// Every step a label may stand at, in order, with the plain step that goes with it.
[[nodiscard]] std::span<const TickScale> tick_ladder();

/// The finest scale at which no label comes closer than `gap_px` to the next between two times, `label_px`
/// being the width of a label; plain ticks are at least 4 px apart.
[[nodiscard]] TickScale tick_scale(double us_per_px, Micros left, Micros right, double gap_px,
                                   const std::function<double(const std::string&)>& label_px);

/// The ticks in [left, right], in order. Times are whole multiples of the scale's steps, on both sides of 0.
[[nodiscard]] std::vector<Tick> ticks(const TickScale& scale, Micros left, Micros right);

/// "0:07.42", with the decimals of the scale.
[[nodiscard]] std::string tick_label(const TickScale& scale, Micros time);

}  // namespace gasp
