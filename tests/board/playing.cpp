// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/board/playing.hpp"

#include <algorithm>
#include <limits>

namespace gasp::board_test {

Comparison compare(const SimulatedChip& chip, const TestSequence& sequence, double zero_us, double tick_us,
                   bool low_when_driven) {
    std::vector<PinChange> edges;
    std::ranges::copy_if(chip.changes(), std::back_inserter(edges),
                         [&](const PinChange& edge) { return edge.us >= zero_us; });
    Comparison result;
    result.edges = edges.size();
    result.least_us = std::numeric_limits<double>::max();
    result.most_us = std::numeric_limits<double>::lowest();
    // Pins of one port change in the same moment, in the order of the ports: put them as events are.
    const auto tick_of = [&](const PinChange& edge) {
        return static_cast<std::uint32_t>((edge.us - zero_us) / tick_us);
    };
    std::ranges::stable_sort(edges, [&](const PinChange& a, const PinChange& b) {
        return tick_of(a) != tick_of(b) ? tick_of(a) < tick_of(b) : a.output < b.output;
    });
    const std::size_t both = std::min(edges.size(), sequence.events.size());
    result.wrong = std::max(edges.size(), sequence.events.size()) - both;
    for (std::size_t i = 0; i < both; ++i) {
        const TestEvent& event = sequence.events[i];
        const bool right = edges[i].driven && edges[i].output == event.output &&
                           tick_of(edges[i]) == event.tick &&
                           edges[i].level == ((event.level != 0) != low_when_driven);
        result.wrong += right ? 0 : 1;
        const double late = edges[i].us - zero_us - event.tick * tick_us;
        result.least_us = std::min(result.least_us, late);
        result.most_us = std::max(result.most_us, late);
    }
    return result;
}

}  // namespace gasp::board_test
