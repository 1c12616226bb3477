// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "core/show/limits.hpp"
#include "core/show/validity.hpp"
#include "tests/support/catch.hpp"

#include <nlohmann/json.hpp>

#include <fstream>
#include <string>
#include <vector>

using namespace gasp;
using nlohmann::json;

namespace {

const json& definitions() {
    static const json schema =
        json::parse(std::ifstream(std::string(GASPWORKS_SOURCE_DIR) + "/resources/schema/show.schema.json"));
    return schema.at("definitions");
}

const json& member(const std::string& of, std::string_view key) {
    return definitions().at(of).at("properties").at(std::string(key));
}

json words(std::span<const std::string_view> keys) {
    json list = json::array();
    for (const std::string_view key : keys) {
        list.push_back(std::string(key));
    }
    return list;
}

/// Every field of T stands in the schema with its words or its range; `others` says how many members more
/// there are.
template <class T>
void check_fields(const std::string& name, std::size_t others) {
    INFO(name);
    for (const ChoiceField<T>& field : fields<T>().choices) {
        INFO(field.key);
        CHECK(member(name, field.key).at("enum") == words(field.keys));
    }
    for (const FigureField<T>& field : fields<T>().figures) {
        INFO(field.key);
        const json& figure = member(name, field.key);
        CHECK(figure.at("type") == "number");
        CHECK(figure.at("minimum") == field.least);
        CHECK(figure.at("maximum") == field.most);
    }
    for (const TextField<T>& field : fields<T>().texts) {
        INFO(field.key);
        CHECK(member(name, field.key).at("type") == "string");
        CHECK(member(name, field.key).at("maxLength") == longest_text);
    }
    CHECK(definitions().at(name).at("properties").size() ==
          fields<T>().choices.size() + fields<T>().figures.size() + fields<T>().texts.size() + others);
}

}  // namespace

TEST_CASE("the schema has every field of the rig, with its range or its words, and no other") {
    check_fields<AirPlant>("air_plant", 0);
    for_each_actuator_part([]<class T>(std::string_view key, auto, T Actuator::*) {
        // linkage: points_mm_deg; fit: out_ms, back_ms
        check_fields<T>(std::string(key), key == "linkage" ? 1 : key == "fit" ? 2 : 0);
    });
    check_fields<Channel>("channel", 7);  // id, name, board, output, actuator, excludes, circuit
    check_fields<Circuit>("circuit", 2);  // supply, returns_to
    check_fields<Supply>("supply", 3);    // id, name, fed_from
    check_fields<Board>("board", 2);      // id, name
    check_fields<Sensor>("sensor", 0);
    check_fields<Speaker>("speaker", 0);
    check_fields<NightPlan>("night", 2);  // groups_by_hour, arrivals_s
}

TEST_CASE("the schema has the limits of sequences") {
    CHECK(member("sequence", "kind").at("enum") == words(sequence_kind_keys()));
    const auto longest = std::chrono::duration_cast<Micros>(longest_sequence).count();
    for (const auto& [of, key] : std::vector<std::pair<std::string, std::string>>{{"sequence", "length_us"},
                                                                                  {"clip", "file_length_us"},
                                                                                  {"clip", "start_us"},
                                                                                  {"clip", "from_us"},
                                                                                  {"clip", "length_us"},
                                                                                  {"clip", "fade_in_us"},
                                                                                  {"clip", "fade_out_us"},
                                                                                  {"mark", "time_us"},
                                                                                  {"cue", "start_us"},
                                                                                  {"cue", "offset_us"},
                                                                                  {"cue", "length_us"}}) {
        INFO(of << "." << key);
        CHECK(member(of, key).at("type") == "integer");
        CHECK(member(of, key).at("minimum") == (key == "offset_us" ? -longest : key == "length_us" ? 1 : 0));
        CHECK(member(of, key).at("maximum") == longest);
    }
    CHECK(member("clip", "gain_db").at("minimum") == least_gain_db);
    CHECK(member("clip", "gain_db").at("maximum") == most_gain_db);
    CHECK(member("clip", "lane").at("minimum") == 1);
    CHECK(member("clip", "lane").at("maximum") == most_sound_lanes);
    CHECK(member("cue", "freedom_us").at("maximum") == std::chrono::microseconds(most_freedom).count());
    CHECK(member("cue", "rate_hz").at("exclusiveMinimum") == 0);
    CHECK(member("cue", "rate_hz").at("maximum") == fastest_flashes_hz);
    CHECK(member("cue", "duty_percent").at("minimum") == least_duty_percent);
    CHECK(member("cue", "duty_percent").at("maximum") == most_duty_percent);
}
