// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv_head.hpp"

#include <fmt/format.h>

#include <optional>

namespace gasp {

namespace {

/// The next line of comment, without "# " and line end; empty when there is none.
std::optional<std::string_view> take_comment(CsvHead& head) {
    if (!head.rest.starts_with('#')) {
        return std::nullopt;
    }
    const std::size_t end = head.rest.find('\n');
    std::string_view line = head.rest.substr(0, end);
    head.rest.remove_prefix(end == std::string_view::npos ? head.rest.size() : end + 1);
    ++head.rest_line;
    line.remove_prefix(line.starts_with("# ") ? 2 : 1);
    line.remove_suffix(line.ends_with('\r') ? 1 : 0);
    return line;
}

}  // namespace

std::string write_csv_head(std::span<const EventTable> tables) {
    std::string head;
    for (const std::string& line : head_lines(tables)) {
        head += "# " + line + "\r\n";
    }
    return head;
}

Result<CsvHead> read_csv_head(std::string_view text, std::string_view name) {
    CsvHead head;
    head.rest = text;
    while (const std::optional<std::string_view> comment = take_comment(head)) {
        const std::string where = fmt::format("{}:{}", name, head.rest_line - 1);
        if (Result<void> read = read_head_line(head, *comment, where); !read) {
            return tl::unexpected(read.error());
        }
    }
    return head;
}

}  // namespace gasp
