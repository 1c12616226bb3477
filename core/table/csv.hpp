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

struct CsvOptions {
    bool comments = true;  ///< a short head of lines that begin with '#'; RFC 4180 itself has none
};

/// The tables as one CSV text (RFC 4180; CRLF), as csv.md describes it.
[[nodiscard]] std::string write_csv(std::span<const EventTable> tables, const CsvOptions& options = {});

/// Reads such a text, with or without its head, back into the same tables.
/// Error: `where` is "<name>:<line>, column <column's name>".
[[nodiscard]] Result<std::vector<EventTable>> read_csv(std::string_view text, std::string_view name);

}  // namespace gasp
