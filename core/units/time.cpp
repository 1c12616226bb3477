// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/time.hpp"

#include <cmath>

namespace gasp {

Micros from_ms(double ms) { return Micros{std::llround(ms * 1000.0)}; }

}  // namespace gasp
