// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/file/json_reading.hpp"
#include "core/show/sequence.hpp"

namespace gasp {

void read_sequence(Reading& reading, JsonValue& value, Sequence& sequence);

}  // namespace gasp
