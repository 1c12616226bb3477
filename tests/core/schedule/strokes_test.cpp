// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/schedule.hpp"
#include "tests/support/catch.hpp"

#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

constexpr ActuatorId keeper{10};

Channel valve_channel(std::uint32_t id, Coil coil, Contact contact = Contact::normally_open) {
    Channel channel;
    channel.id = {id};
    channel.kind = ChannelKind::valve;
    channel.contact = contact;
    channel.actuator = keeper;
    channel.coil = coil;
    return channel;
}

Cue cue(std::uint32_t id, std::uint32_t channel, Micros at, Micros length) {
    Cue made;
    made.id = {id};
    made.channel = {channel};
    made.at = at;
    made.length = length;
    return made;
}

std::vector<StrokeCommand> commands(ValveKind kind, std::vector<Channel> channels, std::vector<Cue> cues) {
    Show show = empty_show();
    Actuator actuator;
    actuator.id = keeper;
    actuator.valve.kind = kind;
    show.rig.actuators.push_back(actuator);
    show.rig.channels = std::move(channels);
    show.sequences[0].cues = std::move(cues);
    return stroke_commands(show, resolve(show, show.sequences[0]));
}

using Commands = std::vector<StrokeCommand>;

}  // namespace

TEST_CASE("a one-coil valve sends the figure out with power and back without") {
    CHECK(commands(ValveKind::five_two_one_coil, {valve_channel(1, Coil::out)}, {cue(1, 1, 1s, 2s)}) ==
          Commands{{1s, keeper, Coil::out}, {3s, keeper, Coil::back}});
}

TEST_CASE("on a normally closed contact a cue takes the power away, so the figure goes back") {
    CHECK(commands(ValveKind::three_two, {valve_channel(1, Coil::out, Contact::normally_closed)},
                   {cue(1, 1, 1s, 2s)}) == Commands{{1s, keeper, Coil::back}, {3s, keeper, Coil::out}});
}

TEST_CASE("each coil of a two-coil valve sends it one way, and losing power sends it nowhere") {
    CHECK(commands(ValveKind::five_two_two_coils, {valve_channel(1, Coil::out), valve_channel(2, Coil::back)},
                   {cue(1, 1, 1s, 100ms), cue(2, 2, 4s, 100ms)}) ==
          Commands{{1s, keeper, Coil::out}, {4s, keeper, Coil::back}});
}

TEST_CASE("lamps and valves without an actuator move nothing") {
    Channel lamp;
    lamp.id = {1};
    lamp.actuator = keeper;
    Channel loose = valve_channel(2, Coil::out);
    loose.actuator.reset();
    CHECK(commands(ValveKind::five_two_one_coil, {lamp, loose}, {cue(1, 1, 1s, 1s), cue(2, 2, 1s, 1s)})
              .empty());
}
