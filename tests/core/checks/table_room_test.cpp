// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>

using namespace gasp;
using namespace gasp::checks_test;

namespace {

/// Of the whole show: one sequence does not know the others.
Lines room_texts(const Show& show) {
    Lines lines;
    for (const Finding& finding : check(show)) {
        if (finding.check == "table_room") {
            lines.push_back(text(finding));
        }
    }
    return lines;
}

}  // namespace

// The sizes are those of resources/board-player/image.md: 56 of the head, 1 an output, 40 a sequence, 6 an
// event, 4 of the CRC. Outputs 1 and 2, and two cues of two events each: 126 bytes.
TEST_CASE("a table larger than its board has room for is found before any load, with what would fit") {
    Show show = clean_show();
    show.rig.boards[0].table_bytes = 126.0;
    CHECK(room_texts(show).empty());
    show.rig.boards[0].table_bytes = 120.0;
    CHECK(
        room_texts(show) ==
        Lines{
            "stop: The table of \"box\" is 6 bytes too large for it: 126 bytes, limit at most 120 bytes. "
            "3 of its 4 events would fit (4 in \"scare\"): export fewer sequences, or leave out flashes and "
            "cues."});
    show.rig.boards[0].table_bytes = 90.0;
    CHECK(room_texts(show).at(0).find("Not even the 1 sequences without events would fit") !=
          std::string::npos);
}

TEST_CASE("all sequences of a show count together, and each board for itself") {
    Show show = clean_show();
    show.rig.boards[0].table_bytes = 220.0;
    CHECK(room_texts(show).empty());
    Sequence second = show.sequences[0];
    second.id = {9001};
    second.name = "second";
    show.sequences.push_back(second);
    show.sequences.push_back(second);
    show.sequences.back().id = {9002};
    CHECK(room_texts(show).at(0).find("254 bytes, limit at most 220 bytes") != std::string::npos);
    Board other = show.rig.boards[0];
    other.id = {11};
    other.name = "box 2";
    show.rig.boards.push_back(other);
    CHECK(room_texts(show).size() == 1);  // nothing hangs on the other
    show.rig.channels[1].board = other.id;
    CHECK(room_texts(show).empty());  // 217 and 218 bytes
}

TEST_CASE("a board of which nobody has said what it has room for is not checked") {
    Show show = clean_show();
    show.rig.boards[0].table_bytes.reset();
    const Lines lines = room_texts(show);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].find("Not checked: no room for tables of \"box\"") != std::string::npos);
}
