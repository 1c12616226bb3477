// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <optional>
#include <string>

namespace gasp {

/// How long an actuator takes to be back at rest from being sent there.
struct ReturnTime {
    Micros time{0};  ///< at the unfavourable end of its band, where there is one
    bool simulated = false;
    bool measured = false;
};

/// The slowest return of the sequence by the simulation, each played on past the sequence's end; the stated
/// time where the simulation lacks a figure, none where that is blank too.
[[nodiscard]] std::optional<ReturnTime> return_time(const CheckInput& input, const Actuator& actuator);

/// The finding that says there is none.
[[nodiscard]] Finding no_return_time(std::string_view check, const Actuator& actuator);

/// " (not measured)" after a limit that rests on such a time.
[[nodiscard]] std::string how_known(const ReturnTime& time);

}  // namespace gasp
