// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/table/json.hpp"

#include "core/table/csv.hpp"
#include "tests/core/table/random_tables.hpp"
#include "tests/support/catch.hpp"

#include <nlohmann/json.hpp>
#include <rapidcheck.h>

using namespace gasp;

namespace {

const std::string good_csv =
    "sequence,time_ms,channel,output,load\r\n"
    "night,0,lamp,0,0\r\nnight,0,lock,0,1\r\nnight,12.5,lamp,1,1\r\nnight,20,lock,1,0\r\n"
    "night,30,lamp,0,0\r\nnight,30,lock,0,1\r\nnight,40,lamp,0,0\r\nnight,40,lock,0,1\r\n";

nlohmann::json good() {
    return nlohmann::json::parse(write_json(read_csv(good_csv, "t.csv").value()));
}

std::string error_of(const nlohmann::json& json) {
    const Result<std::vector<EventTable>> tables = read_json(json.dump(), "t.json");
    REQUIRE_FALSE(tables);
    CHECK_FALSE(tables.error().remedy.empty());
    return tables.error().where + ": " + tables.error().what;
}

}  // namespace

TEST_CASE("tables written as JSON are read back the same") {
    REQUIRE(rc::check("for any show", [] {
        const std::vector<EventTable> tables = random_tables(random_show(Names::utf8));
        const Result<std::vector<EventTable>> read = read_json(write_json(tables), "t.json");
        RC_ASSERT(read.has_value());
        RC_ASSERT(*read == tables);
    }));
}

TEST_CASE("JSON is ASCII, whatever the names") {
    REQUIRE(rc::check("for any show", [] {
        const std::string text = write_json(random_tables(random_show()));
        RC_ASSERT(std::ranges::all_of(text, [](char c) { return c == '\n' || (c >= ' ' && c <= '~'); }));
        RC_ASSERT(nlohmann::json::accept(text));
    }));
}

TEST_CASE("a text that is no JSON is refused at its line") {
    const Result<std::vector<EventTable>> tables = read_json("{\n\"format\": oh", "t.json");
    REQUIRE_FALSE(tables);
    CHECK(tables.error().where == "t.json:2");
    CHECK_FALSE(read_json("", "t.json"));
    CHECK_FALSE(read_json(std::string(100'000, '['), "t.json"));
    CHECK(read_json("{\"format\": 1E777}", "t.json").error().what ==
          "a number is larger than any table holds");
}

TEST_CASE("errors of a JSON table name the way to the value") {
    nlohmann::json json = good();
    json["tables"][0]["rows"][3]["time_us"] = -1;
    CHECK(error_of(json) ==
          "t.json: tables[0].rows[3].time_us: a whole number from 0 to 86400000000 must stand here");
    json = good();
    json["tables"][0]["rows"][3]["channel"] = "bell";
    CHECK(error_of(json) == "t.json: tables[0].rows[3].channel: the table has no channel of this name");
    json = good();
    json["tables"][0]["rows"][2]["load"] = 0;
    CHECK(error_of(json) ==
          "t.json: tables[0].rows[2].load: the load does not follow from its output and its contact");
    json = good();
    json["tables"][0]["rows"][2]["time_us"] = 25'000;
    CHECK(error_of(json) == "t.json: tables[0].rows[3]: the row is out of order");
    json = good();
    json["tables"][0]["rows"].erase(7);
    CHECK(error_of(json) == "t.json: tables[0].rows[5]: sequence \"night\" does not end at rest");
    json = good();
    json["tables"][0]["rows"] = nlohmann::json::array();
    CHECK(error_of(json) == "t.json: tables[0].rows: sequence \"night\" ends without rest");
    json = good();
    json["tables"][0]["length_us"] = 41'000;
    CHECK(error_of(json) == "t.json: tables[0].rows[7]: the last row is not at the length");
    json = good();
    json["version"] = 2;
    CHECK(error_of(json) == "t.json: version: the table is of a version this program does not know");
    json = good();
    json.erase("format");
    CHECK(error_of(json) == "t.json: this is no event table of Gaspworks");
    json = good();
    json["tables"].push_back(json["tables"][0]);
    CHECK(error_of(json) == "t.json: tables[1]: two tables are of this sequence");
    CHECK(error_of(nlohmann::json::array()) == "t.json: an object must stand here");
}
