// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/json.hpp"
#include "app/gasp/text_grid.hpp"
#include "core/sound/loudness_meter.hpp"
#include "core/units/time.hpp"

#include <fmt/format.h>

#include <optional>

namespace gasp {

/// Momentary and short-term as EBU Tech 3341 names them; null for silence.
inline void add_loudest(const std::optional<LoudestMoment>& loudest, Json& json) {
    json["max_momentary_lufs"] = loudest ? Json(loudest->momentary_lufs) : Json();
    json["max_momentary_at_us"] = loudest ? Json(loudest->at.count()) : Json();
    json["max_short_term_lufs"] = loudest ? Json(loudest->short_term_lufs) : Json();
}

/// The same for people; nothing for silence.
inline void add_loudest(const std::optional<LoudestMoment>& loudest, TextGrid& grid) {
    if (loudest) {
        grid.add({"max momentary",
                  fmt::format("{:.1f} LUFS at {}", loudest->momentary_lufs, print_time(loudest->at))});
        grid.add({"max short-term", fmt::format("{:.1f} LUFS", loudest->short_term_lufs)});
    }
}

}  // namespace gasp
