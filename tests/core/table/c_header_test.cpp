// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/c_header.hpp"

#include "core/table/c_names.hpp"
#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

using namespace gasp;

namespace {

std::string header_of(const std::string& channel) {
    EventTable table;
    table.sequence = "night";
    table.length = Micros{40'000};
    TableChannel one;
    one.name = channel;
    table.channels.push_back(one);
    add_rest(table, Micros{0});
    table.rows.push_back({Micros{12'000}, 0, true});
    table.rows.push_back({Micros{30'000}, 0, false});
    add_rest(table, table.length);
    return write_c_header(std::vector{table}).value();
}

std::string with(std::string text, std::string_view from, std::string_view to) {
    const std::size_t place = text.find(from);
    REQUIRE(place != std::string::npos);
    return text.replace(place, from.size(), to);
}

std::string error_of(const std::string& text) {
    const Result<std::vector<EventTable>> tables = read_c_header(text, "t.h");
    REQUIRE_FALSE(tables);
    CHECK_FALSE(tables.error().remedy.empty());
    return tables.error().where + ": " + tables.error().what;
}

}  // namespace

TEST_CASE("tables written as a C header are read back the same") {
    REQUIRE(rc::check("for any show", [] {
        const std::vector<EventTable> tables = random_tables(random_show());
        const Result<std::string> text = write_c_header(tables);
        RC_ASSERT(text.has_value());
        const Result<std::vector<EventTable>> read = read_c_header(*text, "t.h");
        RC_ASSERT(read.has_value());
        RC_ASSERT(*read == tables);
    }));
}

TEST_CASE("no name ends a comment, continues a line or makes a trigraph") {
    REQUIRE(rc::check("for any show", [] {
        const std::string text = write_c_header(random_tables(random_show())).value();
        int open = 0;
        for (std::size_t place = 0; place + 1 < text.size(); ++place) {
            const std::string_view pair = std::string_view(text).substr(place, 2);
            RC_ASSERT(pair != "\\\n" && pair != "??" && text[place] != '\r');
            open += pair == "/*" ? 1 : 0;
            open -= pair == "*/" ? 1 : 0;
            RC_ASSERT(open <= 1);
        }
        RC_ASSERT(open == 0);
    }));
}

TEST_CASE("a mark of direction in a name is written out, and read back") {
    const std::string name = "pal\u202e*/ erif\u2066\u200b \u2013 \u00e9";
    const std::string text = header_of(name);
    CHECK(text.find("pal\\u202e") != std::string::npos);
    CHECK(text.find("\u202e") == std::string::npos);
    CHECK(text.find("\\u2066\\u200b \u2013 \u00e9") != std::string::npos);  // what is seen stays
    CHECK(read_c_header(text, "t.h").value().front().channels.front().name == name);
}

TEST_CASE("a control character in a name is written out, whichever of the two sets it is of") {
    const std::string name = "\u001b[2J \u0085\u009b2J \u00a0\u00e9";
    const std::string text = header_of(name);
    CHECK(text.find("\\u001b[2J \\u0085\\u009b2J \u00a0\u00e9") != std::string::npos);
    CHECK(read_c_header(text, "t.h").value().front().channels.front().name == name);
}

TEST_CASE("identifiers are plain, short and given once") {
    CNames names;
    CHECK(names.give("Keeper valve") == "keeper_valve");
    CHECK(names.give("Keeper-Valve") == "keeper_valve_2");
    CHECK(names.give("keeper_valve_2") == "keeper_valve_2_2");
    CHECK(names.give("  ?\?/*  ") == "x");
    CHECK(names.give("\xC3\xA4") == "x_2");
    CHECK(names.give(std::string(100, 'n')).size() == 40);
    CHECK(names.give(std::string(100, 'n')) == std::string(40, 'n') + "_2");
    CHECK(upper_case("keeper_2") == "KEEPER_2");
}

TEST_CASE("a header that was changed is refused at the line") {
    const std::string text = header_of("lamp");
    CHECK(read_c_header(with(text, "\n", "\r\n"), "t.h").has_value());
    CHECK(error_of(with(text, "    {12u, 0u, 1u},\n", "")) ==
          "t.h: sequence \"night\": channel \"lamp\" was in "
          "this state already");
    CHECK(error_of(with(text, "{12u, 0u, 1u}", "{12u, 1u, 1u}")).find("beyond") != std::string::npos);
    CHECK(error_of(with(text, "{12u, 0u, 1u}", "{12, 0u, 1u}")).find("damaged") != std::string::npos);
    CHECK(error_of(with(text, "uint32_t gaspworks_time", "uint8_t gaspworks_time"))
              .find("not as it was written") != std::string::npos);
    CHECK(error_of(with(text, "STEP_US_NIGHT 1000u", "STEP_US_NIGHT 0u")).find("step") != std::string::npos);
    // Found by the fuzzer: a channel told of after the rows of its sequence have begun.
    CHECK(error_of(with(text, "    {12u",
                        "/* channel \"bell\" id 9 board none output none contact NO tick_ms 1 at rest "
                        "load 0 */\n    {12u"))
              .find("a comment stands among the events") != std::string::npos);
    CHECK(error_of("int main() {}\n") ==
          "t.h:1: this is no event table of Gaspworks, or part of it is missing");
}

TEST_CASE("sequences with different channels are refused") {
    EventTable one;
    one.sequence = "a";
    EventTable other = one;
    other.sequence = "b";
    other.channels.emplace_back();
    CHECK_FALSE(write_c_header(std::vector{one, other}));
}
