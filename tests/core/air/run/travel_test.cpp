// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/travel.hpp"

#include "tests/support/catch.hpp"

#include <rapidcheck.h>

using namespace gasp;

namespace {

Micros ms(int value) {
    return Micros{value * 1000};
}

Actuator lunge() {
    Actuator actuator;
    actuator.id = ActuatorId{3};
    actuator.valve.opening_delay_ms = 20;
    actuator.valve.closing_delay_ms = 40;
    actuator.motion.out_ms = 220;   // 200 ms on the move
    actuator.motion.back_ms = 440;  // 400 ms on the move
    return actuator;
}

StrokeCommand out_at(int time_ms) {
    return {ms(time_ms), ActuatorId{3}, Coil::out};
}
StrokeCommand back_at(int time_ms) {
    return {ms(time_ms), ActuatorId{3}, Coil::back};
}

}  // namespace

TEST_CASE("a full stroke begins after the valve's delay and ends at the stated time", "[travel]") {
    const std::vector commands{out_at(1000), back_at(2000)};
    const Travel result = travel(lunge(), commands);
    CHECK(result.out_stated);
    CHECK(result.back_stated);
    CHECK(share_at(result, ms(1020)) == 0.0);
    CHECK(share_at(result, ms(1120)) == Approx(0.5));
    CHECK(share_at(result, ms(1220)) == 1.0);
    CHECK(share_at(result, ms(2040)) == 1.0);
    CHECK(share_at(result, ms(2240)) == Approx(0.5));
    CHECK(share_at(result, ms(2440)) == 0.0);
    CHECK(share_at(result, ms(999999)) == 0.0);
}

TEST_CASE("a stroke cut short turns where it stands, at the speed of a full stroke", "[travel]") {
    const std::vector commands{out_at(0), back_at(80)};  // shifts back at 120 ms, half way out
    const Travel result = travel(lunge(), commands);
    CHECK(share_at(result, ms(120)) == Approx(0.5));
    CHECK(share_at(result, ms(220)) == Approx(0.25));
    CHECK(share_at(result, ms(320)) == 0.0);
}

TEST_CASE("a second coil shifts its valve back with the opening delay", "[travel]") {
    Actuator actuator = lunge();
    actuator.valve.kind = ValveKind::five_two_two_coils;
    const std::vector commands{out_at(0), back_at(1000)};
    CHECK(share_at(travel(actuator, commands), ms(1020)) == 1.0);
    CHECK(share_at(travel(actuator, commands), ms(1041)) < 1.0);
}

TEST_CASE("without a stated time the figure jumps as the coil switches, and says so", "[travel]") {
    Actuator actuator = lunge();
    actuator.motion.out_ms.reset();
    const std::vector commands{out_at(1000)};
    const Travel result = travel(actuator, commands);
    CHECK_FALSE(result.out_stated);
    CHECK(result.back_stated);
    CHECK(share_at(result, Micros{999'999}) == 0.0);
    CHECK(share_at(result, ms(1000)) == 1.0);
}

TEST_CASE("a delay longer than the stated time leaves a jump at the stated time", "[travel]") {
    Actuator actuator = lunge();
    actuator.valve.opening_delay_ms = 500;
    const std::vector commands{out_at(0)};
    CHECK(share_at(travel(actuator, commands), ms(219)) == 0.0);
    CHECK(share_at(travel(actuator, commands), ms(220)) == 1.0);
}

TEST_CASE("strokes of other actuators and a figure that rests out", "[travel]") {
    const std::vector<StrokeCommand> others{{ms(10), ActuatorId{9}, Coil::out}};
    CHECK(share_at(travel(lunge(), others), ms(5000)) == 0.0);
    CHECK(share_at(travel(lunge(), others, true), ms(5000)) == 1.0);

    Show show;
    show.rig.actuators.push_back(lunge());
    Channel channel;
    channel.id = ChannelId{5};
    channel.kind = ChannelKind::valve;
    channel.actuator = ActuatorId{3};
    show.rig.channels.push_back(channel);
    CHECK_FALSE(rests_out(show, show.rig.actuators[0]));
    show.rig.channels[0].contact = Contact::normally_closed;
    CHECK(rests_out(show, show.rig.actuators[0]));
}

TEST_CASE("whatever the commands, travel stays within its ends and no faster than stated", "[travel]") {
    REQUIRE(rc::check([] {
        const auto times = *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 5000));
        std::vector<int> sorted = times;
        std::sort(sorted.begin(), sorted.end());
        std::vector<StrokeCommand> commands;
        for (const int time : sorted) {
            commands.push_back(*rc::gen::arbitrary<bool>() ? out_at(time) : back_at(time));
        }
        const Travel result = travel(lunge(), commands);
        double before = share_at(result, Micros{0});
        for (int t = 1; t < 6000; ++t) {
            const double now = share_at(result, ms(t));
            RC_ASSERT(now >= 0.0);
            RC_ASSERT(now <= 1.0);
            RC_ASSERT(std::abs(now - before) <= 1.0 / 200.0 + 1e-4);
            before = now;
        }
        for (std::size_t i = 1; i < result.points.size(); ++i) {
            RC_ASSERT(result.points[i - 1].time <= result.points[i].time);
        }
    }));
}
