// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/budget/band.hpp"
#include "core/checks/check.hpp"
#include "core/units/quantity.hpp"

#include <string>

namespace gasp {

/// "285 ms (230 to 350 ms, not measured)"; seconds are given. A time that may never come ends in "or never".
[[nodiscard]] std::string times(const Band& seconds, bool measured);
/// The same of a quantity, in its document unit.
[[nodiscard]] std::string banded(Quantity quantity, const Band& band, bool measured, UnitSystem units);

/// Calls `take(stroke, band, actuator)` for every stroke of the simulation, in order of time. Without bands,
/// the band is the figure itself.
template <class Take>
void for_each_stroke(const CheckInput& input, Take take) {
    if (!input.run.air.run) {
        return;
    }
    const SequenceAir& air = input.run.air;
    for (std::size_t i = 0; i < air.run->strokes.size(); ++i) {
        const Stroke& stroke = air.run->strokes[i];
        if (const Actuator* actuator = find(input.show, stroke.command.actuator)) {
            take(stroke, i < air.bands.size() ? air.bands[i] : stroke_band(stroke, {}, false), *actuator);
        }
    }
}

/// A finding about a stroke, placed at its command.
[[nodiscard]] Finding about_stroke(const CheckInput& input, const Stroke& stroke, std::string_view check,
                                   Severity severity);

}  // namespace gasp
