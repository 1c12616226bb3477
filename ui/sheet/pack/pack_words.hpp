// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/show/show.hpp"
#include "core/units/quantity.hpp"

#include <QString>

namespace gasp {

// How the sections say things, so that all say them alike.

[[nodiscard]] QString text_of(std::string_view utf8);  ///< as shown(): a name that can be printed
[[nodiscard]] QString time_text(Micros time);          ///< "0:07.420"
[[nodiscard]] QString span_text(Micros time);          ///< "420 ms"
/// As typed, in the shown unit; a dash where it is blank.
[[nodiscard]] QString figure_text(Quantity quantity, const Figure& figure, UnitSystem units);
/// Rounded: what was worked out.
[[nodiscard]] QString rounded_text(Quantity quantity, double value, UnitSystem units, int digits = 3);
/// The name of a cue, or "cue 7" without one, as findings mean it.
[[nodiscard]] QString name_of(const Cue& cue);
/// "Deck board 3", "no output".
[[nodiscard]] QString output_text(const Show& show, const Channel& channel);
/// Where a finding is: "Scare 0:07.420", or "rig".
[[nodiscard]] QString place_text(const Show& show, const Finding& finding);

}  // namespace gasp
