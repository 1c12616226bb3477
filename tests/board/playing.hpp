// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "tests/board/simulated_chip.hpp"

#include <cstddef>

namespace gasp::board_test {

/// How the edges at the pins compare with a sequence's events, by time and output.
struct Comparison {
    std::size_t edges = 0;  ///< of the pins
    std::size_t wrong = 0;  ///< missing, of another output or level, or too many
    double least_us = 0.0;  ///< after the event's own time
    double most_us = 0.0;
};

/// The edges since `zero_us` against the events of a run that began then. `low_when_driven`: for all outputs.
[[nodiscard]] Comparison compare(const SimulatedChip& chip, const TestSequence& sequence, double zero_us,
                                 double tick_us, bool low_when_driven = false);

}  // namespace gasp::board_test
