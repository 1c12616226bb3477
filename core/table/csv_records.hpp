// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace gasp {

// The grammar of RFC 4180, section 2, with its erratum 5714: nothing may stand between a closing quote and
// the comma or line end after it. Read more widely in two places: a line may end in LF alone, and fields may
// hold any byte.

/// One field as it stands in the text: without its outer quotes, its inner ones still doubled.
struct CsvField {
    std::string_view raw;
    bool doubled = false;  ///< `raw` holds doubled quotes

    [[nodiscard]] std::string value() const;
};

/// Appends a field, in quotes when it holds anything but printable ASCII without comma and quote.
void append_csv_field(std::string& text, std::string_view value);

/// Takes a text apart record by record. The text must outlive it and its fields.
class CsvRecords {
  public:
    /// `line` is the number of the text's first line.
    explicit CsvRecords(std::string_view text, std::size_t line = 1) : text_(text), next_line_(line) {}

    [[nodiscard]] bool at_end() const { return place_ == text_.size(); }
    /// Reads the next record into `fields`; false where the text breaks the grammar. Requires: not at_end().
    [[nodiscard]] bool next(std::vector<CsvField>& fields);

    /// The line on which the last record began.
    [[nodiscard]] std::size_t line() const { return line_; }
    /// What was wrong when next() returned false, in the field of index fields.size() and the record of
    /// line().
    [[nodiscard]] std::string_view problem() const { return problem_; }

  private:
    bool bare_field(CsvField& field);
    bool quoted_field(CsvField& field);
    /// Behind a field: true at a comma or line end, which it steps over.
    bool separator(bool& record_ends);
    bool refuse(std::string_view problem);

    std::string_view text_;
    std::size_t place_ = 0;
    std::size_t line_ = 0;
    std::size_t next_line_;
    std::string_view problem_;
};

}  // namespace gasp
