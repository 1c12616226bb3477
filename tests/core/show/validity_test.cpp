// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/validity.hpp"

#include "tests/core/show/lighthouse.hpp"
#include "tests/support/catch.hpp"

#include <functional>
#include <limits>

using namespace gasp;
using namespace gasp::testing;

namespace {

/// Where the lighthouse, broken by `breaking`, is said to be broken.
std::vector<std::string> places(const std::function<void(Show&)>& breaking) {
    Show show = lighthouse();
    breaking(show);
    std::vector<std::string> where;
    for (const Error& breach : breaches(show)) {
        CHECK_FALSE(breach.what.empty());
        CHECK_FALSE(breach.remedy.empty());
        where.push_back(breach.where);
    }
    return where;
}

using Places = std::vector<std::string>;

}  // namespace

TEST_CASE("the lighthouse is valid") {
    CHECK(places([](Show&) {}).empty());
}

TEST_CASE("a breach names thing and field") {
    CHECK(places([](Show& s) { s.sequences[0].cues[0].length = 0us; }) ==
          Places{"cue 7 of sequence \"Scare\": length_us"});
    CHECK(places([](Show& s) { s.sequences[0].cues[1].at = -5s; }) ==
          Places{"cue 8 of sequence \"Scare\": offset_us"});
    CHECK(places([](Show& s) { s.sequences[0].cues[0].channel = ChannelId{1}; }) ==
          Places{"cue 7 of sequence \"Scare\": channel"});
    CHECK(places([](Show& s) { s.sequences[1].cues[0].mark = light; }) ==
          Places{"cue 10 of sequence \"Idle\": mark"});
    CHECK(places([](Show& s) { s.rig.actuators[0].cylinder.bore_mm = -1; }) ==
          Places{"cylinder of actuator \"Keeper\": bore_mm"});
    CHECK(places([](Show& s) { s.rig.air_plant.receiver_l = std::numeric_limits<double>::quiet_NaN(); }) ==
          Places{"air plant: receiver_l"});
    CHECK(places([](Show& s) { s.rig.channels[0].output = 0; }) == Places{"channel \"Lunge\": output"});
    CHECK(places([](Show& s) { s.rig.channels[0].board = BoardId{3}; }) ==
          Places{"channel \"Lunge\": board"});
    CHECK(places([](Show& s) { s.rig.channels[1].excludes = {ChannelId{4}}; }) ==
          Places{"channel \"Lamp\": excludes"});
    CHECK(places([](Show& s) { s.rig.channels[1].name = "Lunge"; }) == Places{"channel \"Lunge\": name"});
    CHECK(places([](Show& s) { s.rig.boards[0].name = ""; }) == Places{"board 2: name"});
    CHECK(places([](Show& s) { s.sequences[0].marks[0].time = 25h; }) ==
          Places{"mark 6 of sequence \"Scare\": time_us"});
    CHECK(places([](Show& s) { s.sequences[0].length = 24h + 1us; }) ==
          Places{"sequence \"Scare\": length_us"});
    CHECK(places([](Show& s) { s.sequences.clear(); }) == Places{"sequences"});
}

TEST_CASE("ids are present, below next_id, unique and in order") {
    CHECK(places([](Show& s) { s.next_id = 10; }) == Places{"cue 10 of sequence \"Idle\": id"});
    CHECK(places([](Show& s) { s.rig.boards[0].id = BoardId{0}; }).front() == "board \"Box\": id");
    CHECK(places([](Show& s) { std::swap(s.sequences[0].cues[0], s.sequences[0].cues[1]); }) ==
          Places{"cue 7 of sequence \"Scare\": id"});
    CHECK(places([](Show& s) { s.sequences[1].cues[0].id = CueId{7}; }) ==
          Places{"cue 7 of sequence \"Idle\": id"});
}

TEST_CASE("flashes are within their bounds") {
    const auto flashing = [](double rate, double duty) {
        return places([=](Show& s) { s.sequences[0].cues[0].flashes = Flashes{rate, duty}; });
    };
    CHECK(flashing(1000, 99).empty());
    CHECK(flashing(0, 50) == Places{"cue 7 of sequence \"Scare\": rate_hz"});
    CHECK(flashing(1001, 50) == Places{"cue 7 of sequence \"Scare\": rate_hz"});
    CHECK(flashing(2, 0.5) == Places{"cue 7 of sequence \"Scare\": duty_percent"});
}

TEST_CASE("times at the ends of their type are breaches, not overflows") {
    constexpr Micros most{std::numeric_limits<std::int64_t>::max()};
    constexpr Micros least{std::numeric_limits<std::int64_t>::min()};
    for (const Micros time : {most, least}) {
        CHECK_FALSE(places([=](Show& s) {
                        s.sequences[0].cues[1].at = time;
                        s.sequences[0].cues[1].length = time;
                        s.sequences[0].marks[0].time = time;
                        s.sequences[0].length = time;
                        s.sequences[0].clips.resize(1);
                        s.sequences[0].clips[0] = {ClipId{3}, "a.wav", "", time, time, time,
                                                   time,      0.0,     1,  0s,   0s,   ""};
                    }).empty());
    }
}

TEST_CASE("sound files stay inside the show's folder") {
    for (const char* path : {"a.wav", "voices/a.wav", "a b/\u706f\u53f0.flac", "..a/b..wav", "a..b/...wav"}) {
        INFO(path);
        CHECK(stays_inside(path));
    }
    for (const char* path :
         {"", "/a.wav", "../a.wav", "a/../../b.wav", "a/..", "..", ".", "./a.wav", "a//b.wav", "a/",
          "C:a.wav", "c:/a.wav", "a\\b.wav", "..\\a.wav", "a\nb.wav", "a\x7f.wav"}) {
        INFO(path);
        CHECK_FALSE(stays_inside(path));
    }
    CHECK_FALSE(stays_inside(std::string_view("a\0.wav", 6)));
    CHECK(places([](Show& s) {
              s.sequences[0].clips.resize(1);
              s.sequences[0].clips[0] = {ClipId{3}, "../a.wav", "", 1s, 0s, 0s, 1s, 0.0, 1, 0s, 0s, ""};
          }) == Places{"clip 3 of sequence \"Scare\": file"});
    const auto places_with = [](std::uint32_t lane, Micros fade_in, Micros fade_out) {
        return places([&](Show& s) {
            SoundClip clip{ClipId{3}, "a.wav", "", 1s, 0s, 0s, 1s, 0.0, 1, 0s, 0s, ""};
            clip.lane = lane;
            clip.fade_in = fade_in;
            clip.fade_out = fade_out;
            s.sequences[0].clips = {clip};
        });
    };
    CHECK(places_with(8, 400ms, 600ms).empty());
    CHECK(places_with(0, 0s, 0s) == Places{"clip 3 of sequence \"Scare\": lane"});
    CHECK(places_with(9, 0s, 0s) == Places{"clip 3 of sequence \"Scare\": lane"});
    CHECK(places_with(1, -1us, 0s) == Places{"clip 3 of sequence \"Scare\": fade_in_us"});
    CHECK(places_with(1, 400ms, 601ms) == Places{"clip 3 of sequence \"Scare\": fade_out_us"});
}
