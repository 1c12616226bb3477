// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"

#include <string>
#include <string_view>

// Nobody outside core/units includes this.

namespace gasp {

/// As in "not a unit of length".
[[nodiscard]] std::string_view name_of(Quantity quantity);

/// The unit of a quantity that is written so, in any of its spellings and in any case; null when there is
/// none.
[[nodiscard]] const Unit* find_unit(Quantity quantity, std::string_view written);

/// A unit's name or spelling as it is compared: plain, in lower case, without spaces and dots.
[[nodiscard]] std::string folded(std::string_view text);

}  // namespace gasp
