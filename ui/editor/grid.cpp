// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/editor/grid.hpp"

#include <chrono>

namespace gasp {

bool valid(const Grid& grid) {
    constexpr std::chrono::hours longest{24};
    return grid.beats_a_minute >= fewest_beats_a_minute && grid.beats_a_minute <= most_beats_a_minute &&
           grid.beats_a_bar >= 1 && grid.beats_a_bar <= most_beats_a_bar && grid.first_beat >= Micros{0} &&
           grid.first_beat <= longest;
}

}  // namespace gasp
