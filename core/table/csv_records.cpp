// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv_records.hpp"

#include <algorithm>

namespace gasp {

namespace {

bool stands_bare(std::string_view value) {
    return std::ranges::all_of(value, [](char c) { return c >= ' ' && c <= '~' && c != ',' && c != '"'; }) &&
           (value.empty() || value.front() != '#');
}

}  // namespace

std::string CsvField::value() const {
    if (!doubled) {
        return std::string(raw);
    }
    std::string result;
    for (std::size_t place = 0; place < raw.size(); ++place) {
        result += raw[place];
        place += raw[place] == '"' ? 1U : 0U;
    }
    return result;
}

void append_csv_field(std::string& text, std::string_view value) {
    if (stands_bare(value)) {
        text += value;
        return;
    }
    text += '"';
    for (const char c : value) {
        text += c;
        if (c == '"') {
            text += c;
        }
    }
    text += '"';
}

bool CsvRecords::next(std::vector<CsvField>& fields) {
    fields.clear();
    line_ = next_line_;
    for (bool record_ends = false; !record_ends;) {
        CsvField field;
        const bool quoted = place_ < text_.size() && text_[place_] == '"';
        if (!(quoted ? quoted_field(field) : bare_field(field)) || !separator(record_ends)) {
            return false;
        }
        fields.push_back(field);
    }
    return true;
}

bool CsvRecords::bare_field(CsvField& field) {
    const std::size_t end = std::min(text_.find_first_of(",\"\r\n", place_), text_.size());
    field.raw = text_.substr(place_, end - place_);
    place_ = end;
    return true;
}

bool CsvRecords::quoted_field(CsvField& field) {
    const std::size_t begin = ++place_;
    for (;;) {
        const std::size_t quote = text_.find('"', place_);
        if (quote == std::string_view::npos) {
            return refuse("a quote is opened and never closed");
        }
        next_line_ +=
            static_cast<std::size_t>(std::ranges::count(text_.substr(place_, quote - place_), '\n'));
        place_ = quote + 1;
        if (place_ == text_.size() || text_[place_] != '"') {
            field.raw = text_.substr(begin, quote - begin);
            return true;
        }
        field.doubled = true;
        ++place_;
    }
}

bool CsvRecords::separator(bool& record_ends) {
    if (place_ == text_.size()) {
        record_ends = true;
        return true;
    }
    const std::string_view rest = text_.substr(place_);
    if (rest.front() == ',') {
        ++place_;
        return true;
    }
    if (rest.front() == '\n' || rest.starts_with("\r\n")) {
        place_ += rest.front() == '\n' ? 1U : 2U;
        ++next_line_;
        record_ends = true;
        return true;
    }
    if (rest.front() == '\r') {
        return refuse("a carriage return stands without its line feed");
    }
    return refuse(rest.front() == '"' ? "a quote stands inside a field that is not quoted"
                                      : "something stands between a closing quote and the comma");
}

bool CsvRecords::refuse(std::string_view problem) {
    problem_ = problem;
    return false;
}

}  // namespace gasp
