// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/budget/air_memo.hpp"

#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/patience.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <vector>

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

using Commands = std::vector<StrokeCommand>;

/// Both figures out and back again and again, now apart and now at once.
Commands busy(Micros between, int times) {
    Commands commands;
    for (int i = 0; i < times; ++i) {
        const Micros at = 1s + i * between;
        commands.push_back({at, keeper, Coil::out});
        commands.push_back({at + 100ms, hatch, Coil::out});
        commands.push_back({at + 1500ms, keeper, Coil::back});
        commands.push_back({at + 2000ms, hatch, Coil::back});
    }
    return commands;
}

void compare(const AirRun& run, const AirRun& whole) {
    REQUIRE(run.strokes.size() == whole.strokes.size());
    double worst_ms = 0.0;
    double worst_kpa = 0.0;
    for (std::size_t i = 0; i < run.strokes.size(); ++i) {
        const Stroke& one = run.strokes[i];
        const Stroke& other = whole.strokes[i];
        REQUIRE(one.command == other.command);
        REQUIRE(one.end == other.end);
        REQUIRE(one.strike_s().has_value());
        worst_ms = std::max(worst_ms, std::abs(*one.strike_s() - *other.strike_s()) * 1e3);
        worst_kpa = std::max(worst_kpa, std::abs(one.receiver_kpa - other.receiver_kpa));
        CHECK(one.free_air_l == Approx(other.free_air_l).epsilon(0.005));
    }
    CAPTURE(worst_ms, worst_kpa);
    CHECK(worst_ms < 0.2);
    CHECK(worst_kpa < 1.0);
    CHECK(run.compressor_on_s == Approx(whole.compressor_on_s).margin(0.1));
    CHECK(run.compressor_starts == whole.compressor_starts);
    CHECK(run.lowest_receiver_kpa == Approx(whole.lowest_receiver_kpa).margin(1.0));
}

}  // namespace

TEST_CASE("episodes put together are what one simulation of it all gives") {
    const Show show = rig_of_two();
    AirMemo memo;
    memo.take(show);
    for (const Micros between : {Micros{4s}, Micros{9s}, Micros{14s}}) {
        const Commands commands = busy(between, 6);
        const Micros length = commands.back().time + 8s;
        compare(memo.run(0, commands, length).value(), run_air(memo.model(), commands, length).value());
    }
}

TEST_CASE("where the receiver falls below the regulator, all of it is simulated together") {
    Show show = rig_of_two();
    show.rig.air_plant.receiver_l = 3.0;
    show.rig.air_plant.cut_in_kpa_gauge = 420.0;
    show.rig.air_plant.delivery_l_min = 30.0;
    AirMemo memo;
    memo.take(show);
    const Commands commands = busy(9s, 3);
    const AirRun run = memo.run(0, commands, 40s).value();
    const AirRun whole = run_air(memo.model(), commands, 40s).value();
    CHECK(run.lowest_receiver_kpa < 400.0);
    CHECK(run.lowest_receiver_kpa == whole.lowest_receiver_kpa);
    CHECK(run.strokes.size() == whole.strokes.size());
}

TEST_CASE("what did not change is not simulated again") {
    Show show = rig_of_two();
    AirMemo memo;
    memo.take(show);
    Commands commands = busy(14s, 8);
    static_cast<void>(memo.run(0, commands, 120s).value());
    const std::size_t first = memo.strokes_simulated();
    CHECK(first <= 8);          // every episode of a figure is alike
    commands[13].time += 30ms;  // the hatch goes out later, and is out the shorter
    static_cast<void>(memo.run(0, commands, 120s).value());
    CHECK(memo.strokes_simulated() - first <= 4);
    const std::size_t second = memo.strokes_simulated();
    static_cast<void>(memo.run(0, commands, 120s).value());
    CHECK(memo.strokes_simulated() == second);
    show.rig.actuators[0].load.mass_kg = 6.0;  // of the keeper alone
    memo.take(show);
    const AirRun heavier = memo.run(0, commands, 120s).value();
    CHECK(memo.strokes_simulated() > second);
    CHECK(memo.strokes_simulated() - second <= 4);
    CHECK(*heavier.strokes[0].strike_s() ==
          Approx(*run_air(memo.model(), commands, 120s)->strokes[0].strike_s()).margin(2e-4));
}

TEST_CASE("an actuator that cannot be simulated is passed over") {
    Show show = rig_of_two();
    show.rig.actuators[1].valve.supply_c_l_s_bar.reset();
    AirMemo memo;
    memo.take(show);
    const AirRun run = memo.run(0, busy(9s, 2), 30s).value();
    CHECK(run.find(hatch) == nullptr);
    CHECK(run.strokes.size() == 4);
}

TEST_CASE("a command that moves nothing has no stroke") {
    const Show show = rig_of_two();
    AirMemo memo;
    memo.take(show);
    const Commands commands{{1s, keeper, Coil::back},  {9s, keeper, Coil::out},   {12s, keeper, Coil::out},
                            {14s, keeper, Coil::back}, {25s, keeper, Coil::back}, {26s, hatch, Coil::out}};
    compare(memo.run(0, commands, 40s).value(), run_air(memo.model(), commands, 40s).value());
    CHECK(memo.bands(show, memo.run(0, commands, 40s).value(), commands, 40s)->size() == 3);
}

TEST_CASE("a memo gives up what would be simulated, and goes on when asked again") {
    const std::array commands{StrokeCommand{1s, keeper, Coil::out}, StrokeCommand{3s, keeper, Coil::back}};
    AirMemo memo;
    memo.take(rig_of_two());
    memo.stop_when([] { return true; });
    CHECK_FALSE(memo.run(0, commands, 10s));
    memo.stop_when({});
    REQUIRE(memo.run(0, commands, 10s));
    memo.stop_when([] { return true; });
    CHECK(memo.run(0, commands, 10s));  // nothing of it has to be simulated
}
