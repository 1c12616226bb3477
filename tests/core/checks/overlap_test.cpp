// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("cues that overlap on a channel are found, with how long") {
    Show show = clean_show();
    show.sequences[0].cues.push_back(cue(1003, lamp, 3900ms, 500ms));
    CHECK(texts(show, "overlap") == Lines{"warn: 0:03.900: Cue 1002 and cue 1003 overlap on channel "
                                          "\"lamp\": 100 ms, limit none. Start cue 1003 "
                                          "100 ms later."});
    const Finding finding = findings(show, "overlap")[0];
    CHECK(finding.place.sequence == show.sequences[0].id);
    CHECK(finding.place.cue == CueId{1002});
    CHECK(finding.place.other_cue == CueId{1003});
    CHECK(finding.place.channel == lamp);
    show.sequences[0].cues.back().at += 100ms;  // the remedy
    CHECK(texts(show, "overlap").empty());
}

TEST_CASE("a cue within another is to be removed; names are used where there are any") {
    Show show = clean_show();
    show.sequences[0].cues[1].name = "beam";
    show.sequences[0].cues.push_back(cue(1003, lamp, 2s, 500ms));
    CHECK(texts(show, "overlap") ==
          Lines{"warn: 0:02.000: Cue \"beam\" and cue 1003 overlap on channel \"lamp\": 500 ms, "
                "limit none. Remove cue 1003, which cue \"beam\" covers whole."});
}

TEST_CASE("every cue under a long one overlaps it; touching cues do not overlap") {
    Show show = clean_show();
    show.sequences[0].cues = {cue(1, lamp, 0s, 5s), cue(2, lamp, 1s, 100ms), cue(3, lamp, 2s, 100ms),
                              cue(4, lamp, 5s, 1s)};
    const auto found = findings(show, "overlap");
    REQUIRE(found.size() == 2);
    CHECK(found[1].place.cue == CueId{1});
    CHECK(found[1].place.other_cue == CueId{3});
}
