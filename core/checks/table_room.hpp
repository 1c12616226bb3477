// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/table/event_table.hpp"

#include <span>
#include <vector>

namespace gasp {

/// Boards whose table is larger than what they have room for. `tables`: of all that they shall play.
[[nodiscard]] std::vector<Finding> check_table_room(const Show& show, std::span<const EventTable> tables);

}  // namespace gasp
