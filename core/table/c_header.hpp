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

/// The tables as one C header, as c_header.md describes it. Error: the sequences do not have the same
/// channels, as those of one show have.
[[nodiscard]] Result<std::string> write_c_header(std::span<const EventTable> tables);

/// Reads such a header back into the same tables. Error: it is not word for word what write_c_header() gives;
/// `where` is "<name>:<line>".
[[nodiscard]] Result<std::vector<EventTable>> read_c_header(std::string_view text, std::string_view name);

}  // namespace gasp
