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

// What comments of a table say of it, a line each, in the forms that have comments: csv.md shows the lines.

/// The lines, without the marks of a comment. Names stand in quotes, with control characters, quotes,
/// backslashes, commas, semicolons and the bytes of `also_escaped` as \u00XX.
[[nodiscard]] std::vector<std::string> head_lines(std::span<const EventTable> tables,
                                                  std::string_view also_escaped = {});

/// What such lines said: the tables without their rows.
struct TableHead {
    std::vector<EventTable> tables;
    std::string show;
    bool ours = false;  ///< a line that begins our head has been read
};

/// Reads one more line. Lines before our head, and lines in it that are not ours, are passed over.
/// Error: a damaged line, or a head of a later form; `where` is what the error gives as its place.
[[nodiscard]] Result<void> read_head_line(TableHead& head, std::string_view line, std::string_view where);

}  // namespace gasp
