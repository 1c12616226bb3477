// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"

#include <string>
#include <string_view>
#include <vector>

// How the readers of quantities and times see text. Nobody outside core/units includes this.

namespace gasp {

/// The text with what is typeset put plainly: a fraction sign as " 1/2", a raised 3 as "3", a degree sign as
/// "deg", a prime as "'", a typographic minus as "-", any space as " ".
[[nodiscard]] std::string plain_text(std::string_view text);

/// A number with what stands behind it, up to the next number.
struct Term {
    double value = 0;
    std::string unit;  ///< without its spaces and dots; empty when there is none
};

/// "60 psi" is one term, "5 ft 3 1/2 in" two; a sign in front counts for all. Numbers: "1.5", "1,5", "1 1/2",
/// "1-1/2", "3/4", "1,234.5", "1e3". Takes plain text.
/// Error: no number, a fraction by zero, too large, or a comma that may part thousands or decimals ("1,500").
[[nodiscard]] Result<std::vector<Term>> read_terms(std::string_view plain);

/// The nearest number of so many significant digits.
[[nodiscard]] double round_to_digits(double value, int digits);

/// What was written, in quotes, shortened where it is long.
[[nodiscard]] std::string quote(std::string_view text);

}  // namespace gasp
