// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/night/night.hpp"
#include "tests/support/air_rig.hpp"

#include <algorithm>
#include <chrono>

namespace gasp::for_tests {

inline constexpr SequenceId scare{10};
inline constexpr SequenceId second_scare{11};
inline constexpr SequenceId watch{12};

/// A small plant with two figures on it: 10 L between 550 and 760 kPa, 42 L/min, regulated to 420 kPa.
inline Show night_show() {
    return show_of({10.0, 550.0, 760.0, 42.0, 420.0},
                   {figure(keeper, "Keeper", 40.0, 250.0, 9.0), figure(hatch, "Hatch", 50.0, 250.0, 12.0)});
}

/// Out after 2 s, back 1.5 s later; of the second figure half a second after the first.
inline NightSequence scare_of(std::vector<ActuatorId> actuators, double lockout_s = 25.0) {
    using namespace std::chrono_literals;
    NightSequence sequence;
    sequence.id = scare;
    sequence.length = 8s;
    sequence.lockout_s = lockout_s;
    Micros at = 2s;
    for (const ActuatorId actuator : actuators) {
        sequence.commands.push_back({at, actuator, Coil::out});
        sequence.commands.push_back({at + 1500ms, actuator, Coil::back});
        at += 500ms;
    }
    std::ranges::stable_sort(sequence.commands, {}, &StrokeCommand::time);
    return sequence;
}

inline NightTerms terms_of(double hours, double groups_per_h, int runs = 1) {
    NightTerms terms;
    terms.hours = hours;
    terms.groups_by_hour = {groups_per_h};
    terms.runs = runs;
    return terms;
}

inline Result<NightForecast> forecast(const Show& show, std::span<const NightSequence> sequences,
                                      const NightTerms& terms, const NightWork& options = {}) {
    const std::atomic<bool> cancel{false};
    return forecast_night(show, sequences, terms, options, cancel, {});
}

}  // namespace gasp::for_tests
