// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/check.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace gasp {

// A stroke that does not get to its end: why, and what would help, so that every check says it alike.

/// Why a stroke does not get to its end.
enum class ShortBy : std::uint8_t {
    pilot,     ///< too little pressure for its valve's pilot
    delay,     ///< the next command comes before its valve has shifted
    time,      ///< it would get there, but the next command or the end of the sequence comes first
    pressure,  ///< it stands still, or would not get there in any time
};

struct ShortStroke {
    ShortBy by = ShortBy::pressure;
    std::optional<Micros> held;    ///< as time_held
    std::optional<Micros> needed;  ///< by `time`: for the whole way at the unfavourable end of its band,
                                   ///< where it has all the air it can use and that would do
    bool measured = false;         ///< `needed` is by a fit to real strokes
};

/// The time until the same actuator is sent another way; none where that does not come.
[[nodiscard]] std::optional<Micros> time_held(const CheckInput& input, const Stroke& stroke);

/// Requires: the stroke is of `input.run.air.run`.
[[nodiscard]] ShortStroke short_stroke(const CheckInput& input, const Stroke& stroke);

/// The gauge pressure at its valve's pilot when it was commanded.
[[nodiscard]] double pilot_kpa(const CheckInput& input, const Stroke& stroke);

[[nodiscard]] std::string remedy(const CheckInput& input, const Stroke& stroke, const ShortStroke& why);

}  // namespace gasp
