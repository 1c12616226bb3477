// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/grid.hpp"

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace gasp {

/// The spacing of the ruler, in the units of its grid: microseconds, frame numbers, or sixteenths of a beat.
/// Seconds go 1-2-5 below a second, then 1, 2, 5, 10, 30 s, the same of minutes, and hours; frames by what
/// divides a second, then as seconds; beats by halves, bars by doubling.
struct TickScale {
    std::int64_t labelled = 0;  ///< between ticks with a label
    std::int64_t plain = 0;     ///< between ticks; divides `labelled`
    int decimals = 0;           ///< of the seconds in a label
    bool operator==(const TickScale&) const = default;
};

struct Tick {
    Micros time{0};
    std::int64_t unit = 0;  ///< of the grid
    bool labelled = false;
    bool operator==(const Tick&) const = default;
};

/// Every step a label may stand at, in order, with the plain step that goes with it.
[[nodiscard]] std::vector<TickScale> tick_ladder(const Grid& grid);

/// The finest scale at which no label comes closer than `gap_px` to the next between two times, `label_px`
/// being the width of a label; plain ticks are at least 4 px apart.
[[nodiscard]] TickScale tick_scale(const Grid& grid, double us_per_px, Micros left, Micros right,
                                   double gap_px, const std::function<double(const std::string&)>& label_px);

/// The ticks in [left, right], in order, none twice. They are whole multiples of the scale's steps, on both
/// sides of where the grid begins.
[[nodiscard]] std::vector<Tick> ticks(const Grid& grid, const TickScale& scale, Micros left, Micros right);

/// "0:07.42" with the decimals of the scale; "0:07:12" of frames; "5.3" of the third beat in the fifth bar.
[[nodiscard]] std::string tick_label(const Grid& grid, const TickScale& scale, std::int64_t unit);

/// What lies next to a time, before and after it: the ticks of a scale, or (at a scale of 0) what the grid is
/// counted in: frames, beats; empty of seconds.
[[nodiscard]] std::vector<Micros> grid_beside(const Grid& grid, const TickScale& scale, Micros time);

}  // namespace gasp
