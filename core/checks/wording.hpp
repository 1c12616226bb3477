// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <span>
#include <string>
#include <string_view>

namespace gasp {

// How findings say things, so that every check says them alike.

[[nodiscard]] std::string quoted(std::string_view name);  ///< "\"lamp\""
/// "a", "a and b", "a, b and c"; of more than three the first two "and 3 more".
[[nodiscard]] std::string listed(std::span<const std::string> names);
[[nodiscard]] std::string named(const Cue& cue);            ///< "cue \"Lunge\"", or "cue 7" without a name
[[nodiscard]] std::string capital(std::string sentence);    ///< with its first letter raised
[[nodiscard]] std::string rounded_down_hertz(double rate);  ///< "12.3 Hz", never above `rate`
[[nodiscard]] std::string at_least(Micros time);            ///< "at least 150 ms"

/// Sets figure and limit of a finding about pressures: "0.843 bar", "at least 1.5 bar".
void set_pressures(Finding& finding, double figure, std::string_view relation, double limit,
                   UnitSystem units);

/// The finding that an input is blank: "Not checked: no <label>", a note that sends to the field.
[[nodiscard]] Finding not_checked(std::string_view check, std::string_view label, Place place);

/// Whether any cue of the sequence drives the channel at `place` in the rig.
[[nodiscard]] inline bool used(const CheckInput& input, std::size_t place) {
    return !input.dwells[place].empty();
}

/// Calls `take(channel)` for each channel of the rig that the sequence uses.
template <class Take>
void for_each_used(const CheckInput& input, Take take) {
    for (std::size_t place = 0; place < input.dwells.size(); ++place) {
        if (used(input, place)) {
            take(input.show.rig.channels[place]);
        }
    }
}

/// Calls `take(actuator)` for each actuator that a used valve channel switches, once.
template <class Take>
void for_each_moved(const CheckInput& input, Take take) {
    for (const Actuator& actuator : input.show.rig.actuators) {
        bool moved = false;
        for_each_used(input, [&](const Channel& channel) {
            moved = moved || (channel.kind == ChannelKind::valve && channel.actuator == actuator.id);
        });
        if (moved) {
            take(actuator);
        }
    }
}

}  // namespace gasp
