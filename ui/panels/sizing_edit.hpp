// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/sizing/sizing.hpp"
#include "core/show/edit.hpp"

#include <optional>

namespace gasp {

/// Puts sized parts into the rig, as one step: in place of those of `actuator`, whose name and base stay and
/// whose timed strokes no longer hold, or as a new actuator. With `plant` the sized figures of the air plant
/// too; those that sizing does not choose stay.
[[nodiscard]] Edit put_into_rig(const Show& show, const Sizing& sizing, std::optional<ActuatorId> actuator,
                                bool plant);

}  // namespace gasp
