// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"

#include <string>
#include <utility>

namespace gasp {

// How figures are printed that were worked out, and so are no better than what went into them. What a person
// typed keeps its digits: print_quantity.

/// "0.843 bar", "79.8 psi": to so many significant digits in the shown unit.
[[nodiscard]] std::string print_rounded(Quantity quantity, double document_value, UnitSystem system,
                                        int digits = 3);

/// A figure and the limit it breaks, to 3 digits or as many more as tell them apart, up to 6.
[[nodiscard]] std::pair<std::string, std::string> print_apart(Quantity quantity, double figure, double limit,
                                                              UnitSystem system);

/// The same upwards to a step that is set by hand: 0.1 bar, 1 psi, 1 L, 1 gal; of other quantities a whole
/// one. For remedies, which must pass once they are followed.
[[nodiscard]] std::string print_rounded_up(Quantity quantity, double document_value, UnitSystem system);
/// The value that print_rounded_up prints, in the document's unit.
[[nodiscard]] double rounded_up(Quantity quantity, double document_value, UnitSystem system);

}  // namespace gasp
