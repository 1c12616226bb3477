// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/file/show_file.hpp"

#include "core/show/validity.hpp"
#include "tests/core/file/every_field.hpp"
#include "tests/support/catch.hpp"

#include <string>

using namespace gasp;

namespace {

Channel lamp(std::uint32_t id) {
    Channel channel;
    channel.id.value = id;
    channel.name = "lamp";
    return channel;
}

}  // namespace

TEST_CASE("a show with every field reads back as it was written") {
    const Show show = testing::every_field();
    REQUIRE(breaches(show).empty());
    const std::string text = write_show(show);
    INFO(text);
    const auto read = read_show(text, "every.gasp");
    INFO((read ? std::string() : read.error().text()));
    REQUIRE(read);
    CHECK(*read == show);
    CHECK(write_show(*read) == text);
}

TEST_CASE("an empty show reads back as it was written") {
    const std::string text = write_show(empty_show());
    const auto read = read_show(text, "empty.gasp");
    REQUIRE(read);
    CHECK(*read == empty_show());
}

TEST_CASE("keys may stand in any order, and what is blank may be left out") {
    const auto show = read_show(R"({
        "sequences": [{"cues": [{"length_us": 5, "start_us": 7, "channel": 3, "id": 9},
                                {"id": 4, "channel": 3, "offset_us": -2, "mark": 2, "length_us": 1}],
                       "marks": [{"time_us": 10, "name": "", "id": 2}],
                       "name": "scare", "length_us": 1000, "id": 1}],
        "rig": {"channels": [{"name": "lamp", "id": 3}]},
        "version": 1, "format": "gaspworks-show"})",
                                "unordered.gasp");
    INFO((show ? std::string() : show.error().text()));
    REQUIRE(show);
    CHECK(show->next_id == 10);  // above all ids, where the text does not say
    const Sequence& sequence = show->sequences.at(0);
    CHECK(sequence.kind == SequenceKind::triggered);
    REQUIRE(sequence.cues.size() == 2);
    CHECK(sequence.cues[0] ==
          Cue{CueId{4}, ChannelId{3}, MarkId{2}, Micros(-2), Micros(1), {}, false, false, Micros(0), "", ""});
    CHECK(sequence.cues[1] ==
          Cue{CueId{9}, ChannelId{3}, {}, Micros(7), Micros(5), {}, false, false, Micros(0), "", ""});
    CHECK(show->rig.channels.at(0) == lamp(3));
}

TEST_CASE("members that this version does not know stay as they stand, wherever they stand") {
    const auto show =
        read_show(R"({"format": "gaspworks-show", "later": {"a" : [1.50, -0, 1E5, "\u00e9"] }, "version": 1,
        "rig": {"new_part":{}, "air_plant": {"humidity_percent":   65, "receiver_l": 24, "x": []}},
        "sequences": [{"id": 1, "name": "scare", "length_us": 1000, "\u006bey": null}]})",
                  "later.gasp");
    INFO((show ? std::string() : show.error().text()));
    REQUIRE(show);
    CHECK(show->extra == R"("later": {"a" : [1.50, -0, 1E5, "\u00e9"] })");
    CHECK(show->rig.extra == R"("new_part":{})");
    CHECK(show->rig.air_plant.extra == R"("humidity_percent":   65, "x": [])");
    CHECK(show->sequences.at(0).extra == R"("\u006bey": null)");
    CHECK(read_show(write_show(*show), "again.gasp") == *show);
}

TEST_CASE("a cue, a mark, a clip and a channel have a line each, and a figure its shortest text") {
    Show show = testing::every_field();
    show.rig.air_plant = {};
    show.rig.air_plant.receiver_l = 0.1;
    show.rig.air_plant.altitude_m = 1e3;
    const std::string text = write_show(show);
    CHECK(text.starts_with("{\n  \"format\": \"gaspworks-show\",\n  \"version\": 1,\n"));
    CHECK(text.find("\n    \"air_plant\": {\"receiver_l\": 0.1, \"altitude_m\": 1000},\n") !=
          std::string::npos);
    CHECK(text.find("\n        {\"id\": 8, \"channel\": 2, \"start_us\": 1000000, \"length_us\": 500000, "
                    "\"strikes\": true, \"from_voice\": true, "
                    "\"freedom_us\": 250000},\n") != std::string::npos);
    CHECK(text.find(
              "\n        {\"id\": 7, \"name\": \"light\", \"time_us\": 7420000, \"x_colour\": \"bone\"}\n") !=
          std::string::npos);
}

TEST_CASE("a million cues are read back") {
    Show show = empty_show();
    show.rig.channels = {lamp(show.next_id++)};
    Sequence& sequence = show.sequences.at(0);
    for (int i = 0; i < 1'000'000; ++i) {
        sequence.cues.push_back({CueId{show.next_id++},
                                 show.rig.channels[0].id,
                                 {},
                                 Micros(i),
                                 Micros(1),
                                 {},
                                 false,
                                 false,
                                 Micros(0),
                                 "",
                                 ""});
    }
    CHECK(read_show(write_show(show), "million.gasp") == show);
}
