// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// Everything blank that can be, and much of it wrong.
Show spoilt_show() {
    Show show = clean_show();
    show.rig.air_plant = {};
    show.rig.sensor = {};
    show.rig.boards[0].outputs.reset();
    Actuator& actuator = show.rig.actuators[0];
    actuator.cylinder = {};
    actuator.valve = {};
    actuator.tube = {};
    actuator.load = {};
    actuator.motion = {};
    for (Channel& channel : show.rig.channels) {
        channel.shortest_on_ms.reset();
        channel.shortest_off_ms.reset();
        channel.start_level = StartLevel::unknown;
        channel.contact = Contact::normally_closed;
        channel.excludes = {lunge, lamp};
    }
    show.sequences[0].cues = {cue(1, lunge, 1s, 1ms), cue(2, lunge, 1s, 3s), cue(3, lamp, -1s, 20s),
                              cue(4, lunge, 5s, 1s)};
    return show;
}

}  // namespace

TEST_CASE("a complete show in order has no findings") {
    for (const Finding& finding : findings(clean_show())) {
        INFO(text(finding));
        CHECK(finding.check == "failure");
    }
}

TEST_CASE("stops come before warnings before notes, each by time") {
    const auto found = findings(spoilt_show());
    REQUIRE(found.size() > 10);
    CHECK(std::is_sorted(found.begin(), found.end(), [](const Finding& a, const Finding& b) {
        return a.severity != b.severity ? a.severity < b.severity : a.place.time < b.place.time;
    }));
}

TEST_CASE("every finding says what, and what to do; every blank says so and claims nothing") {
    for (const Finding& finding : findings(spoilt_show())) {
        INFO(text(finding));
        CHECK_FALSE(finding.what.empty());
        CHECK_FALSE(finding.remedy.empty());
        CHECK(finding.not_checked == (finding.what.rfind("Not checked: no ", 0) == 0));
        if (finding.not_checked) {
            CHECK(finding.severity == Severity::note);
            CHECK_FALSE(finding.place.field.empty());
            CHECK(finding.figure.empty());
        }
        CHECK(text(finding).find("safe") == std::string::npos);
        CHECK(text(finding).find("..") == std::string::npos);
    }
}

TEST_CASE("every check has a name of its own and a subject, and findings carry these names") {
    std::vector<std::string_view> names;
    for (const Check& one : all_checks()) {
        CHECK_FALSE(one.subject.empty());
        CHECK(std::find(names.begin(), names.end(), one.name) == names.end());
        names.push_back(one.name);
    }
    for (const Finding& finding : findings(spoilt_show())) {
        CHECK(std::find(names.begin(), names.end(), finding.check) != names.end());
    }
}

TEST_CASE("over the whole show findings of the rig come once, those of a sequence for each") {
    Show show = clean_show();
    show.rig.channels[0].start_level = StartLevel::unknown;
    show.sequences[0].cues.push_back(cue(1003, lamp, 3900ms, 500ms));
    Sequence second = show.sequences[0];
    second.id = {900};
    second.name = "scare 2";
    show.sequences.push_back(second);
    auto found = check(show);
    std::erase_if(found, [](const Finding& finding) { return finding.check == "failure"; });
    REQUIRE(found.size() == 3);
    CHECK(found[0].check == "start_level");
    CHECK(found[1].place.sequence == show.sequences[0].id);
    CHECK(found[2].place.sequence == second.id);
}

TEST_CASE("a check that is stopped gives nothing") {
    CHECK(check(spoilt_show(), CheckSetting{.stopped = [] { return true; }}).empty());
    int asked = 0;
    CHECK(check(spoilt_show(), spoilt_show().sequences[0], {.stopped = [&] { return ++asked > 3; }}).empty());
    CHECK(asked == 4);
}

TEST_CASE("a show with nothing in it") {
    CHECK(check(empty_show()).empty());
}

TEST_CASE("how a finding reads in one line") {
    Finding finding;
    finding.check = "overlap";
    finding.what = "Two cues overlap";
    CHECK(text(finding) == "warn: Two cues overlap.");
    finding.place.time = 1500ms;
    finding.figure = "120 ms";
    finding.limit = "none";
    finding.remedy = "Start the second 120 ms later";
    CHECK(text(finding) ==
          "warn: 0:01.500: Two cues overlap: 120 ms, limit none. Start the second 120 ms later.");
    CHECK(word(Severity::stop) == "stop");
    CHECK(word(Severity::note) == "note");
}
