// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/table/table_head.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

/// The lines of comment before the rows, in the form csv.md describes.
[[nodiscard]] std::string write_csv_head(std::span<const EventTable> tables);

/// What such lines said, and where they end.
struct CsvHead : TableHead {
    std::string_view rest;      ///< the text behind the head
    std::size_t rest_line = 1;  ///< the number of its first line
};

/// Reads the lines that begin with '#' before the first row. Comments of others are passed over.
/// Error: `where` is "<name>:<line>".
[[nodiscard]] Result<CsvHead> read_csv_head(std::string_view text, std::string_view name);

}  // namespace gasp
