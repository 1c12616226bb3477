// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/file/json_reading.hpp"
#include "core/show/rig.hpp"

namespace gasp {

void read_rig(Reading& reading, JsonValue& value, Rig& rig);

}  // namespace gasp
