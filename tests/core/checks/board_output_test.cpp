// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/core/checks/rig.hpp"
#include "tests/support/catch.hpp"

using namespace gasp;
using namespace gasp::checks_test;

TEST_CASE("an output used twice") {
    Show show = clean_show();
    show.rig.channels[1].output = 1;
    CHECK(texts(show, "board_output") ==
          Lines{"stop: Channels \"lunge\" and \"lamp\" share an output of \"box\": output 1, "
                "limit one channel each. Give \"lamp\" output 2."});
    Board second = show.rig.boards[0];
    second.id = {11};
    second.name = "box 2";
    show.rig.boards.push_back(second);
    show.rig.channels[1].board = second.id;  // the same number on another board
    CHECK(texts(show, "board_output").empty());
}

TEST_CASE("an output the board does not have") {
    Show show = clean_show();
    show.rig.channels[1].output = 9;
    CHECK(texts(show, "board_output") ==
          Lines{"stop: Channel \"lamp\" is on an output that \"box\" does not have: output 9, "
                "limit 1 to 8. Give it output 2."});
    show.rig.channels[1].output = 8;
    CHECK(texts(show, "board_output").empty());
}

TEST_CASE("a used channel without board or output; an unused one may do without") {
    Show show = clean_show();
    show.rig.channels[0].output.reset();
    show.rig.channels[1].board.reset();
    CHECK(texts(show, "board_output") ==
          Lines{"warn: Channel \"lunge\" has cues and no output on \"box\". Give it output 1.",
                "warn: Channel \"lamp\" has cues and no board. Choose the board that switches it."});
    show.sequences[0].cues.clear();
    CHECK(texts(show, "board_output").empty());
}

TEST_CASE("a board of unknown size is not checked, and said once") {
    Show show = clean_show();
    show.rig.boards[0].outputs.reset();
    CHECK(
        texts(show, "board_output") ==
        Lines{
            "note: Not checked: no number of outputs of \"box\". Fill in the number of outputs of \"box\"."});
    CHECK(findings(show, "board_output")[0].place.board == box);
}
