// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/edits.hpp"
#include "tests/core/show/lighthouse.hpp"
#include "tests/support/catch.hpp"

#include <limits>

using namespace gasp;
using namespace gasp::testing;

TEST_CASE("a channel goes with its cues in every sequence and every mention of it, and comes back whole") {
    Show show = lighthouse();
    const Edit lunge = remove_channel(show, ChannelId{3});
    apply(lunge, show);
    CHECK(lunge.sentence == "delete channel \"Lunge\"");
    CHECK(find(show.sequences.front(), lunge_cue) == nullptr);
    CHECK(find(show, ChannelId{4})->excludes.empty());
    const Edit lamp = remove_channel(show, ChannelId{4});
    apply(lamp, show);
    CHECK(show.sequences[0].cues.empty());
    CHECK(show.sequences[1].cues.empty());
    CHECK(show.rig.channels.empty());
    revert(lamp, show);
    revert(lunge, show);
    CHECK(show == lighthouse());
}

TEST_CASE("a supply goes, and what it fed stays without it") {
    Show show = lighthouse();
    show = with(add_supply(show, Supply{}), show);
    show = with(add_supply(show, Supply{}), show);
    REQUIRE(show.rig.supplies.size() == 2);
    CHECK(show.rig.supplies[1].name == "Supply 2");
    Supply converter = show.rig.supplies[1];
    converter.fed_from = show.rig.supplies[0].id;
    show = with(set_supply(show, converter), show);
    Channel lamp = show.rig.channels[0];
    lamp.circuit.supply = show.rig.supplies[0].id;
    lamp.circuit.returns_to = converter.id;
    lamp.circuit.route = "two\nlines";
    show = with(set_channel(show, lamp), show);
    CHECK(show.rig.channels[0].circuit.supply == show.rig.supplies[0].id);
    CHECK(show.rig.channels[0].circuit.route.empty());

    const Show without = with(remove_supply(show, show.rig.supplies[0].id), show);
    REQUIRE(without.rig.supplies.size() == 1);
    CHECK_FALSE(without.rig.supplies[0].fed_from);
    CHECK_FALSE(without.rig.channels[0].circuit.supply);
    CHECK(without.rig.channels[0].circuit.returns_to == converter.id);
}

TEST_CASE("an actuator or board goes, and its channels stay without it") {
    const Show no_actuator = with(remove_actuator(lighthouse(), ActuatorId{1}), lighthouse());
    CHECK(no_actuator.rig.actuators.empty());
    CHECK(no_actuator.rig.channels[0].actuator == std::nullopt);
    const Show no_board = with(remove_board(lighthouse(), BoardId{2}), lighthouse());
    CHECK(no_board.rig.channels[0].board == std::nullopt);
    CHECK(no_board.rig.channels[0].output == std::nullopt);
}

TEST_CASE("the undo menu says which field changed") {
    const Show show = lighthouse();
    Actuator keeper = show.rig.actuators[0];
    keeper.cylinder.bore_mm = 50;
    CHECK(set_actuator(show, keeper).sentence == "change bore of \"Keeper\"");
    keeper.valve.kind = ValveKind::three_two;
    CHECK(set_actuator(show, keeper).sentence == "change \"Keeper\"");
    keeper = show.rig.actuators[0];
    keeper.valve.kind = ValveKind::three_two;
    CHECK(set_actuator(show, keeper).sentence == "change valve of \"Keeper\"");
    keeper = show.rig.actuators[0];
    keeper.name = "Mate";
    CHECK(set_actuator(show, keeper).sentence == "rename \"Keeper\" to \"Mate\"");

    Channel lamp = show.rig.channels[1];
    lamp.board = BoardId{2};
    lamp.output = 2;
    CHECK(set_channel(show, lamp).sentence == "change output of \"Lamp\"");
    AirPlant plant;
    plant.cut_in_kpa_gauge = 550;
    CHECK(set_air_plant(show, plant).sentence == "change cut-in of the air plant");
}

TEST_CASE("a figure that cannot be stays what it was") {
    const Show show = lighthouse();
    Actuator keeper = show.rig.actuators[0];
    for (const double bore : {0.0, -40.0, 1e9, std::numeric_limits<double>::quiet_NaN()}) {
        keeper.cylinder.bore_mm = bore;
        CHECK(set_actuator(show, keeper).empty());
    }
    keeper.cylinder.bore_mm.reset();
    CHECK_FALSE(set_actuator(show, keeper).empty());
}

TEST_CASE("a channel keeps only what exists, and a name of its own") {
    const Show show = lighthouse();
    Channel lamp = show.rig.channels[1];
    lamp.name = "Lunge";
    lamp.board = BoardId{99};
    lamp.output = 3;
    lamp.excludes = {ChannelId{3}, ChannelId{99}, lamp.id, ChannelId{3}};
    const Channel after = with(set_channel(show, lamp), show).rig.channels[1];
    CHECK(after.name == "Lunge 2");
    CHECK(after.board == std::nullopt);
    CHECK(after.output == std::nullopt);
    CHECK(after.excludes == std::vector{ChannelId{3}});
}

TEST_CASE("a lane is moved among the channels") {
    Show show = with(add_channel(lighthouse(), channel_of(0, "Bell", ChannelKind::other)), lighthouse());
    const Show three = show;
    const Edit down = move_channel(show, ChannelId{3}, 2);
    apply(down, show);
    CHECK(down.sentence == "move channel \"Lunge\"");
    CHECK(show.rig.channels[0].name == "Lamp");
    CHECK(show.rig.channels[2].name == "Lunge");
    revert(down, show);
    CHECK(show == three);
    CHECK(move_channel(show, ChannelId{3}, 0).empty());
    CHECK(with(move_channel(show, ChannelId{3}, 99), show).rig.channels[2].name == "Lunge");
}

TEST_CASE("things added to the rig get the next id and a free name") {
    Show show = lighthouse();
    show = with(add_board(show, Board{}), show);
    show = with(add_board(show, Board{}), show);
    CHECK(show.rig.boards[1].id == BoardId{11});
    CHECK(show.rig.boards[2].id == BoardId{12});
    CHECK(show.rig.boards[2].name == "Board 2");
    CHECK(with(add_actuator(show, Actuator{}), show).rig.actuators.back().name == "Actuator");
}

TEST_CASE("no ids left: nothing is added") {
    Show show = lighthouse();
    show.next_id = std::numeric_limits<std::uint32_t>::max();
    CHECK(add_board(show, Board{}).empty());
    CHECK(add_mark(show, scare, 1s, "late").empty());
    CHECK(add_cues(show, scare, {cue_of(0, 4, std::nullopt, 0s, 1s)}).empty());
}
