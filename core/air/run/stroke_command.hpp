// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/time.hpp"

namespace gasp {

/// A moment at which an actuator is sent one way.
struct StrokeCommand {
    Micros time{0};
    ActuatorId actuator;
    Coil way = Coil::out;
    bool operator==(const StrokeCommand&) const = default;
};

}  // namespace gasp
