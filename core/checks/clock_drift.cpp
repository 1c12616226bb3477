// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/clock_drift.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

/// From here on a sound and what it goes with are seen to be apart (common practice, no source).
constexpr double most_drift_ms = 40.0;

std::string ms(double figure) {
    return print_quantity(Quantity::time_ms, figure, UnitSystem::metric);
}

Finding too_far(const CheckInput& input, const ClockDrift& drift) {
    const Board& board = *find(input.show, drift.board);
    Finding finding{"clock_drift", Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = drift.at;
    finding.place.board = drift.board;
    finding.place.field = "clock_ppm";
    finding.what = "The clock of " + quoted(board.name) + " may be apart from that of " +
                   (drift.other ? quoted(find(input.show, *drift.other)->name) : std::string("the sound")) +
                   " by the last change in " + quoted(input.sequence.name);
    finding.figure = ms(*drift.drift_ms);
    finding.limit = "at most " + ms(most_drift_ms);
    const double allowed = std::floor(most_drift_ms * 1e9 / static_cast<double>(drift.at.count()));
    finding.remedy = "Take clocks that are off by at most " + std::to_string(static_cast<long>(allowed)) +
                     " ppm together, or part the sequence in two";
    return finding;
}

void add_once(std::vector<Finding>& findings, Finding finding) {
    if (std::ranges::find(findings, finding) == findings.end()) {
        findings.push_back(std::move(finding));
    }
}

void add_not_checked(const CheckInput& input, BoardId id, std::vector<Finding>& findings) {
    const Board& board = *find(input.show, id);
    if (!board.clock_ppm) {
        Place place;
        place.board = id;
        place.field = "clock_ppm";
        add_once(findings,
                 not_checked("clock_drift", "clock tolerance of " + quoted(board.name), std::move(place)));
    }
}

}  // namespace

std::vector<Finding> check_clock_drift(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const ClockDrift& drift : clock_drifts(input.show, input.sequence, input.schedule)) {
        if (drift.drift_ms) {
            if (*drift.drift_ms > most_drift_ms) {
                findings.push_back(too_far(input, drift));
            }
            continue;
        }
        add_not_checked(input, drift.board, findings);
        if (drift.other) {
            add_not_checked(input, *drift.other, findings);
        } else if (!input.show.rig.speaker.clock_ppm) {
            Place place;
            place.field = "speaker.clock_ppm";
            add_once(findings, not_checked("clock_drift", "clock tolerance of the sound's player", place));
        }
    }
    return findings;
}

}  // namespace gasp
