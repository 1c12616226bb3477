// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/budget.hpp"

#include "core/air/model/stroke_air.hpp"
#include "tests/support/catch.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <chrono>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

constexpr ActuatorId keeper{3};

/// 24 L between 600 and 800 kPa, 60 L/min, and one figure that takes 0.880332 L out and 0.739... back at 6
/// bar.
Show rig() {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 24.0;
    plant.cut_in_kpa_gauge = 600.0;
    plant.cut_out_kpa_gauge = 800.0;
    plant.delivery_l_min = 60.0;
    plant.regulator_kpa_gauge = 500.0;
    Actuator actuator;
    actuator.id = keeper;
    actuator.name = "Keeper";
    actuator.cylinder.bore_mm = 40.0;
    actuator.cylinder.rod_mm = 16.0;
    actuator.cylinder.stroke_mm = 100.0;
    actuator.tube.length_m = 2.0;
    actuator.tube.bore_mm = 4.0;
    show.rig.actuators.push_back(actuator);
    return show;
}

/// 60 L/min taken in at 101.325 kPa lift 24 L by this many kPa a second.
constexpr double rise = 101.325 / 24.0;

}  // namespace

TEST_CASE("the run begins at cut-in with the compressor on, and stops it at cut-out") {
    const AirBudget air = budget(rig(), {}, 60s);
    REQUIRE(air.curve.size() == 3);
    CHECK(air.curve[0] == PressurePoint{0us, 600.0});
    CHECK(to_s(air.curve[1].time) == Approx(200.0 / rise));
    CHECK(air.curve[1].receiver_kpa_gauge == Approx(800.0));
    CHECK(air.curve[2].time == 60s);
    CHECK(air.curve[2].receiver_kpa_gauge == air.curve[1].receiver_kpa_gauge);
    CHECK(air.compressor_on_s == Approx(200.0 / rise));
    CHECK(air.lowest_kpa_gauge == 600.0);
    CHECK(air.lowest_at == 0s);
}

TEST_CASE("each stroke takes its air at once, and both points stand on the curve") {
    const Show show = rig();
    const StrokeAir each = stroke_air(show.rig.air_plant, show.rig.actuators[0]).value();
    const std::vector<StrokeCommand> commands{{1s, keeper, Coil::out}, {3s, keeper, Coil::back}};
    const AirBudget air = budget(show, commands, 4s);
    REQUIRE(air.strokes.size() == 2);
    CHECK(air.strokes[0].free_air_l == each.out_l);
    CHECK(air.strokes[1].free_air_l == each.back_l);
    CHECK(air.free_air_l == Approx(each.out_l + each.back_l));
    const double after_out = 600.0 + rise - each.out_l * 100.0 / 24.0;
    CHECK(air.strokes[0].receiver_kpa_gauge == Approx(after_out));
    CHECK(air.strokes[1].receiver_kpa_gauge == Approx(after_out + 2 * rise - each.back_l * 100.0 / 24.0));
    REQUIRE(air.curve.size() == 6);
    CHECK(air.curve[1] == PressurePoint{1s, 600.0 + rise});
    CHECK(air.curve[2].time == 1s);
    CHECK(air.curve[2].receiver_kpa_gauge == Approx(after_out));
    CHECK(air.curve.back().time == 4s);
}

TEST_CASE("the compressor rests between cut-out and cut-in") {
    Show show = rig();
    show.rig.air_plant.receiver_l = 2.0;  // a stroke out takes 42.5 kPa or so
    std::vector<StrokeCommand> commands;
    for (int i = 0; i < 4; ++i) {
        commands.push_back({5s + i * 200ms, keeper, Coil::out});
        commands.push_back({5s + i * 200ms + 100ms, keeper, Coil::back});
    }
    const AirBudget air = budget(show, commands, 20s);
    // Filled to 800 and off; it stays off stroke after stroke until 600 is reached, and then fills again.
    CHECK(air.strokes.front().receiver_kpa_gauge < 800.0);
    CHECK(air.strokes.front().receiver_kpa_gauge > 600.0);
    CHECK(air.lowest_kpa_gauge < 600.0);
    CHECK(air.curve.back().receiver_kpa_gauge == Approx(800.0));
    const double fill = (200.0 + (800.0 - air.lowest_kpa_gauge)) / (101.325 / 2.0);
    CHECK(air.compressor_on_s == Approx(fill).epsilon(0.1));
}

TEST_CASE("a second push the same way moves nothing") {
    Show show = rig();
    show.rig.actuators[0].valve.kind = ValveKind::five_two_two_coils;
    const std::vector<StrokeCommand> commands{
        {1s, keeper, Coil::back}, {2s, keeper, Coil::out}, {3s, keeper, Coil::out}, {4s, keeper, Coil::back}};
    const AirBudget air = budget(show, commands, 5s);
    REQUIRE(air.strokes.size() == 2);
    CHECK(air.strokes[0].command.time == 2s);
    CHECK(air.strokes[1].command.time == 4s);
}

TEST_CASE("pressure never falls below that of the air around") {
    Show show = rig();
    show.rig.air_plant.receiver_l = 0.1;
    show.rig.air_plant.delivery_l_min = 0.1;
    const std::vector<StrokeCommand> commands{{1s, keeper, Coil::out}, {3s, keeper, Coil::back}};
    CHECK(budget(show, commands, 4s).lowest_kpa_gauge == 0.0);
}

TEST_CASE("blank fields are listed once, and there is no curve") {
    Show show = rig();
    show.rig.air_plant.receiver_l.reset();
    show.rig.actuators[0].tube.length_m.reset();
    const std::vector<StrokeCommand> commands{{1s, keeper, Coil::out}, {3s, keeper, Coil::back}};
    const AirBudget air = budget(show, commands, 4s);
    CHECK(air.curve.empty());
    REQUIRE(air.missing.size() == 2);
    CHECK(air.missing[0] == BlankField{"air_plant.receiver_l", "receiver of the air plant", std::nullopt});
    CHECK(air.missing[1] == BlankField{"tube.length_m", "tube length of \"Keeper\"", keeper});
}

TEST_CASE("an actuator that is not sent anywhere need not be known") {
    Show show = rig();
    show.rig.actuators.push_back(Actuator{});
    CHECK(budget(show, {}, 4s).missing.empty());
}

TEST_CASE("on average the compressor runs for the share of air drawn") {
    // Demand over free-air delivery, the duty of any compressor under a pressure switch: common practice, no
    // source.
    const Show show = rig();
    const StrokeAir each = stroke_air(show.rig.air_plant, show.rig.actuators[0]).value();
    std::vector<StrokeCommand> commands;
    for (int i = 0; i < 10'000; ++i) {
        commands.push_back({i * 4s, keeper, Coil::out});
        commands.push_back({i * 4s + 2s, keeper, Coil::back});
    }
    const AirBudget air = budget(show, commands, 40'000s);
    const double demand = (each.out_l + each.back_l) / 4.0;  // L/s of free air
    const double delivery = 60.0 / 60.0 * 1.01325;
    CHECK(air.compressor_on_s / 40'000.0 == Approx(demand / delivery).epsilon(0.01));
}

TEST_CASE("another cycle never raises the lowest pressure while the compressor runs on") {
    // Not so across cut-out: a small draw may start the compressor in time for a large one.
    REQUIRE(rc::check([] {
        Show show = rig();
        show.rig.air_plant.cut_out_kpa_gauge = 4000.0;
        const auto cycles = [&](std::vector<int> starts) {
            std::sort(starts.begin(), starts.end());
            std::vector<StrokeCommand> commands;
            for (const int start : starts) {
                commands.push_back({start * 10ms, keeper, Coil::out});
                commands.push_back({start * 10ms + 5ms, keeper, Coil::back});
            }
            return budget(show, commands, 30s);
        };
        auto starts = *rc::gen::unique<std::vector<int>>(rc::gen::inRange(0, 2990));
        RC_PRE(!starts.empty());
        const AirBudget more = cycles(starts);
        starts.pop_back();
        const AirBudget fewer = cycles(starts);
        RC_ASSERT(more.lowest_kpa_gauge <= fewer.lowest_kpa_gauge + 1e-9);
        RC_ASSERT(more.free_air_l >= fewer.free_air_l);
    }));
}
