// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/circuits.hpp"

#include <optional>

namespace gasp {

/// That too little voltage is left at a load for it to work, or for a coil to pull in, with the moment but
/// without the sequence; none where enough is left or a figure is blank.
[[nodiscard]] std::optional<Finding> find_drop(const Rig& rig, const CheckedCircuit& circuit,
                                               UnitSystem units);

}  // namespace gasp
