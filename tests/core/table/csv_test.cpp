// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/csv.hpp"

#include "core/table/csv_text.hpp"
#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>

using namespace gasp;

namespace {

const std::string good =
    "sequence,time_ms,channel,output,load\r\n"
    "night,0,lamp,0,0\r\n"
    "night,0,lock,0,1\r\n"
    "night,12.5,lamp,1,1\r\n"
    "night,20,lock,1,0\r\n"
    "night,30,lamp,0,0\r\n"
    "night,30,lock,0,1\r\n"
    "night,40,lamp,0,0\r\n"
    "night,40,lock,0,1\r\n";

std::string with(std::string text, std::string_view from, std::string_view to) {
    const std::size_t place = text.find(from);
    REQUIRE(place != std::string::npos);
    return text.replace(place, from.size(), to);
}

std::string error_of(const std::string& text) {
    const Result<std::vector<EventTable>> tables = read_csv(text, "t.csv");
    REQUIRE_FALSE(tables);
    CHECK_FALSE(tables.error().remedy.empty());
    return tables.error().where + ": " + tables.error().what;
}

}  // namespace

TEST_CASE("tables written with their head are read back the same") {
    REQUIRE(rc::check("for any show", [] {
        const std::vector<EventTable> tables = random_tables(random_show());
        const Result<std::vector<EventTable>> read = read_csv(write_csv(tables), "t.csv");
        RC_ASSERT(read.has_value());
        RC_ASSERT(*read == tables);
    }));
}

TEST_CASE("the rows alone give events, contacts and length back, and with the show all the rest") {
    REQUIRE(rc::check("for any show", [] {
        const Show show = random_show();
        std::vector<EventTable> tables = random_tables(show);
        const Result<std::vector<EventTable>> read =
            read_csv(write_csv(tables, {.comments = false}), "t.csv");
        RC_ASSERT(read.has_value());
        std::erase_if(tables, [](const EventTable& table) { return table.channels.empty(); });
        RC_ASSERT(read->size() == tables.size());
        for (std::size_t index = 0; index < tables.size(); ++index) {
            RC_ASSERT((*read)[index].sequence == tables[index].sequence);
            RC_ASSERT((*read)[index].length == tables[index].length);
            RC_ASSERT((*read)[index].rows == tables[index].rows);
            const Result<EventTable> bound = bound_to((*read)[index], show);
            RC_ASSERT(bound.has_value());
            RC_ASSERT(*bound == tables[index]);
            RC_ASSERT(schedule_of(*bound) == schedule_of(tables[index]));
        }
    }));
}

TEST_CASE("a table keeps every byte whatever the lengths of its names and rows") {
    EventTable table;
    table.sequence = std::string(40, 'n');
    for (const std::size_t length : {0U, 8U, 9U, 10U, 24U, 25U, 26U, 40'000U}) {
        table.channels.push_back({.id = {}, .name = std::string(length, 'c'), .board = {}, .output = {}});
    }
    std::string expected = "sequence,time_ms,channel,output,load\r\n";
    for (std::uint32_t number = 0; number < 4000; ++number) {
        const bool driven = number % 3 == 0;
        const std::uint32_t channel = number % 500 == 0 ? 7 : number % 7;
        table.rows.push_back({Micros{std::int64_t{number} * 12'500}, channel, driven});
        expected += table.sequence + ',' + std::to_string(number * 25 / 2) + (number % 2 == 1 ? ".5," : ",") +
                    table.channels[channel].name + (driven ? ",1,1\r\n" : ",0,0\r\n");
    }
    const std::string text = write_csv(std::vector{table}, {.comments = false});
    CHECK((text == expected));
}

TEST_CASE("times are plain milliseconds that read back exactly") {
    REQUIRE(rc::check("for any time within a day", [] {
        const Micros time{*rc::gen::inRange<std::int64_t>(0, 86'400'000'001)};
        char text[longest_ms];
        const std::string_view written(text, static_cast<std::size_t>(write_ms(text, time) - text));
        RC_ASSERT(written.find_first_not_of("0123456789.") == std::string_view::npos);
        RC_ASSERT(read_ms(written) == time);
    }));
    const auto written = [](std::int64_t us) {
        char text[longest_ms];
        return std::string(text, write_ms(text, Micros{us}));
    };
    CHECK(written(0) == "0");
    CHECK(written(12'000) == "12");
    CHECK(written(12'500) == "12.5");
    CHECK(written(12'050) == "12.05");
    CHECK(written(1) == "0.001");
    CHECK(written(86'400'000'000) == "86400000");
}

TEST_CASE("what is not a time in ms is refused") {
    for (const char* text : {"", ".", "-1", "+1", "1.", "1.2345", "1e3", " 1", "1 ", "0x1", "86400000.001",
                             "nan", "99999999999999999999"}) {
        CAPTURE(text);
        CHECK_FALSE(read_ms(text));
    }
}

TEST_CASE("a name a spreadsheet would take for a formula is written as text and comes back") {
    for (const char* name : {"=1+1", "+lamp", "-lamp", "@lamp", "'lamp", "\tlamp", "''", "lamp", ""}) {
        CAPTURE(name);
        CHECK(unguarded(guarded(name)) == name);
        CHECK((guarded(name).empty() || std::string("=+-@\t\r").find(guarded(name)[0]) == std::string::npos));
    }
    CHECK(guarded("lamp") == "lamp");
}

TEST_CASE("no cell of a head begins a formula") {
    EventTable table;
    table.show = "a,=1+1;=2\t=3\n=4";
    table.sequence = ",=5";
    const std::string text = write_csv(std::vector{table});
    for (const char separator : {',', ';', '\t', '\n'}) {
        CHECK(text.find(std::string(1, separator) + "=") == std::string::npos);
    }
    CHECK(read_csv(text, "t.csv").value() == std::vector{table});
}

TEST_CASE("the rows say which contact, which length and which tick at most") {
    const std::vector<EventTable> tables = read_csv(good, "t.csv").value();
    REQUIRE(tables.size() == 1);
    CHECK(tables[0].sequence == "night");
    CHECK(tables[0].length == Micros{40'000});
    REQUIRE(tables[0].channels.size() == 2);
    CHECK(tables[0].channels[0].contact == Contact::normally_open);
    CHECK(tables[0].channels[0].tick == Micros{100});
    CHECK(tables[0].channels[1].contact == Contact::normally_closed);
    CHECK(tables[0].channels[1].tick == Micros{1000});
    CHECK(schedule_of(tables[0]).events.size() == 4);
}

TEST_CASE("lines may end in LF alone, lack their last end, follow a byte order mark and others' comments") {
    const auto expected = read_csv(good, "t.csv").value();
    std::string lines = good;
    std::erase(lines, '\r');
    CHECK(read_csv(lines, "t.csv").value() == expected);
    CHECK(read_csv(lines.substr(0, lines.size() - 1), "t.csv").value() == expected);
    CHECK(read_csv("\xEF\xBB\xBF" + good, "t.csv").value() == expected);
    CHECK(read_csv("# seen by the keeper\n#\n" + good, "t.csv").value() == expected);
    CHECK(read_csv(with(good, "night,0,lamp", "\"night\",\"0\",\"lamp\""), "t.csv").value() == expected);
}

TEST_CASE("errors name line and column") {
    CHECK(error_of("") == "t.csv:1: there is no row of column names");
    CHECK(error_of("# only a comment\r\n") == "t.csv:2: there is no row of column names");
    CHECK(error_of(with(good, "output,load", "load,output")) ==
          "t.csv:1, column output: the row of column names is not that of an event table");
    CHECK(error_of(with(good, "12.5,lamp,1,1", "12.5,lamp,1")) ==
          "t.csv:4, column output: the row has 4 fields instead of 5");
    CHECK(error_of(with(good, "12.5,lamp,1,1", "12.5,lamp,1,1,")) ==
          "t.csv:4, column load: the row has 6 fields instead of 5");
    CHECK(error_of(with(good, "12.5", "12,5")) == "t.csv:4, column load: the row has 6 fields instead of 5");
    CHECK(error_of(with(good, "12.5", "1e1")) ==
          "t.csv:4, column time_ms: the time is not a number of ms from 0 to 24 h");
    CHECK(error_of(with(good, "12.5,lamp,1,1", "12.5,lamp,2,1")) ==
          "t.csv:4, column output: the state is neither 0 nor 1");
    CHECK(error_of(with(good, "12.5,lamp,1,1", "12.5,lamp,1,0")) ==
          "t.csv:4, column load: the load of channel \"lamp\" does not follow from its output and its rest");
    CHECK(error_of(with(good, "12.5,lamp", "12.5,bell")) ==
          "t.csv:4, column channel: channel \"bell\" has no row of rest at time 0");
    CHECK(error_of(with(good, "12.5,lamp", "\"12.5,lamp")) ==
          "t.csv:4, column time_ms: a quote is opened and never closed");
    CHECK(error_of(with(good, "12.5", "22.5")) == "t.csv:5, column time_ms: the row is out of order");
    CHECK(error_of(with(good, "night,12.5,lamp,1,1\r\n", "")) ==
          "t.csv:5, column output: channel \"lamp\" was in this state already");
    CHECK(error_of(with(good, "night,30,lamp,0,0\r\n", "")) ==
          "t.csv:7, column output: channel \"lamp\" is still driven at the end");
    CHECK(error_of(with(good, "night,40,lock,0,1\r\n", "")) ==
          "t.csv:7, column channel: sequence \"night\" does not end at rest");
    CHECK(error_of(with(good, "night,20", "day,0")) ==
          "t.csv:4, column sequence: sequence \"night\" ends without rest");
}

TEST_CASE("a row that spans lines is named by its first, those after it by their own") {
    std::string text = good;
    for (std::size_t place = 0; (place = text.find("lamp", place)) != std::string::npos; place += 7) {
        text.replace(place, 4, "\"la\nmp\"");
    }
    CHECK(read_csv(text, "t.csv").value()[0].channels[0].name == "la\nmp");
    CHECK(error_of(with(text, "night,20,lock,1,0", "night,20,lock,1,1")) ==
          "t.csv:7, column load: the load of channel \"lock\" does not follow from its output and its rest");
}

TEST_CASE("a head that does not fit its rows is refused") {
    const std::string text = write_csv(read_csv(good, "t.csv").value());
    CHECK(error_of(with(text, "form 1", "form 2")) ==
          "t.csv:1: the head is of a form this version does not know");
    CHECK(error_of(with(text, "contact NO", "contact XX")) == "t.csv:6: this line of the head is damaged");
    CHECK(error_of(with(text, "tick_ms 0.1", "tick_ms 0")) == "t.csv:6: this line of the head is damaged");
    CHECK(error_of(with(text, "tick_ms 0.1", "tick_ms 1")) ==
          "t.csv:11, column time_ms: the time is not on the tick the head gives");
    CHECK(error_of(with(text, "length_ms 40", "length_ms 41")) ==
          "t.csv:9: the head gives sequence \"night\" another length or other channels than its rows");
    CHECK(error_of(with(text, "# sequence \"night\"", "# sequence \"day\"")) ==
          "t.csv:9: the head gives sequence \"night\" another length or other channels than its rows");
    CHECK(error_of(text.substr(0, text.find("night,0"))) ==
          "t.csv: the head names sequence \"night\", which has no rows");
}

TEST_CASE("the head is a few lines a person can read") {
    const std::string text = write_csv(read_csv(good, "t.csv").value());
    CHECK(text.substr(0, text.find("sequence,")) ==
          "# Gaspworks event table form 1\r\n"
          "# show \"\"\r\n"
          "# Times count from the start of the sequence.\r\n"
          "# Output 1 is driven: away from its rest. Load 1 has power.\r\n"
          "# sequence \"night\" id 1 length_ms 40\r\n"
          "# channel \"lamp\" id 1 board none output none contact NO tick_ms 0.1 at rest load 0\r\n"
          "# channel \"lock\" id 2 board none output none contact NC tick_ms 1 at rest load 1\r\n");
    CHECK(text.substr(text.find("sequence,")) == good);
}
