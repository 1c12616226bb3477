// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv_records.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;

// Source of every case: RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", Y.
// Shafranovich, October 2005, section 2, rules 1 to 7 and the grammar, with its verified erratum 5714.

namespace {

std::vector<std::string> fields_of(std::string_view text) {
    CsvRecords records(text);
    std::vector<CsvField> fields;
    REQUIRE(records.next(fields));
    CHECK(records.at_end());
    std::vector<std::string> values;
    for (const CsvField& field : fields) {
        values.push_back(field.value());
    }
    return values;
}

bool is_valid(std::string_view text) {
    CsvRecords records(text);
    std::vector<CsvField> fields;
    while (!records.at_end()) {
        if (!records.next(fields)) {
            return false;
        }
    }
    return true;
}

using Fields = std::vector<std::string>;

}  // namespace

TEST_CASE("RFC 4180 rule 7: a quote within a quoted field is doubled") {
    CHECK(fields_of("\"aaa\",\"b\"\"bb\",\"ccc\"\r\n") == Fields{"aaa", "b\"bb", "ccc"});
    std::string written;
    append_csv_field(written, "b\"bb");
    CHECK(written == "\"b\"\"bb\"");
}

TEST_CASE("RFC 4180 rule 6: line ends, quotes and commas stand within quotes") {
    CHECK(fields_of("\"aaa\",\"b\r\nbb\",\"ccc\"\r\n") == Fields{"aaa", "b\r\nbb", "ccc"});
    for (const char* value : {"b\r\nbb", "b\rbb", "b\nbb", "b,bb", "\""}) {
        std::string written;
        append_csv_field(written, value);
        CAPTURE(written);
        CHECK(written.front() == '"');
        CHECK(fields_of(written) == Fields{value});
    }
}

TEST_CASE("RFC 4180 rule 5: a field may or may not stand in quotes") {
    CHECK(fields_of("\"aaa\",\"bbb\",\"ccc\"\r\n") == Fields{"aaa", "bbb", "ccc"});
    CHECK(fields_of("zzz,yyy,xxx") == Fields{"zzz", "yyy", "xxx"});
    CHECK_FALSE(is_valid("a\"b,c\r\n"));
}

TEST_CASE("RFC 4180 erratum 5714: nothing stands between a closing quote and the comma") {
    CHECK_FALSE(is_valid("\"aaa\" ,b\r\n"));
    CHECK_FALSE(is_valid("\"aaa\"b\r\n"));
}

TEST_CASE("RFC 4180 rule 4: spaces belong to a field, and a comma at the end begins an empty one") {
    CHECK(fields_of("a,b,") == Fields{"a", "b", ""});
    CHECK(fields_of(" a , b\r\n") == Fields{" a ", " b"});
}

TEST_CASE("RFC 4180 rules 1 and 2: records end in CR LF, which the last may lack") {
    CsvRecords records("aaa,bbb,ccc\r\nzzz,yyy,xxx");
    std::vector<CsvField> fields;
    REQUIRE(records.next(fields));
    CHECK(fields.size() == 3);
    REQUIRE(records.next(fields));
    CHECK(fields[2].value() == "xxx");
    CHECK(records.line() == 2);
    CHECK(records.at_end());
    CHECK_FALSE(is_valid("aaa\rbbb"));
    CHECK_FALSE(is_valid("aaa,\"bbb"));
}
