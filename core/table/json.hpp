// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/event_table.hpp"
#include "core/units/error.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// The tables as one JSON text, as json.md describes it.
[[nodiscard]] std::string write_json(std::span<const EventTable> tables);

/// Reads such a text back into the same tables.
/// Error: `where` is "<name>:<line>" where it is no JSON, else "<name>: tables[0].rows[3].time_us".
[[nodiscard]] Result<std::vector<EventTable>> read_json(std::string_view text, std::string_view name);

}  // namespace gasp
