// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/sizing/sizing.hpp"

#include "core/air/run/air_run.hpp"
#include "core/air/sizing/handbook.hpp"
#include "core/air/sizing/standard_sizes.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/patience.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <limits>

using namespace gasp;
using namespace std::chrono_literals;

namespace {

/// A figure of 2.7 kg that rises by 0.45 m, over a lever that trebles.
SizingTask rising() {
    SizingTask task;
    task.lift_mm = 450.0;
    task.ratio = 3.0;
    task.mass_kg = 2.7;
    task.out_ms = 300.0;
    task.scares_per_h = 40.0;
    task.working_kpa_gauge = 400.0;
    return task;
}

const SizedFigure& figure(const Sizing& sizing, std::string_view key) {
    const auto found = std::ranges::find(sizing.figures, key, &SizedFigure::key);
    REQUIRE(found != sizing.figures.end());
    return *found;
}

/// Time out of what was chosen, simulated here from the rig it makes.
double simulated_ms(const Actuator& actuator, const AirPlant& plant) {
    Show show = empty_show();
    show.rig.air_plant = plant;
    show.rig.actuators.push_back(actuator);
    const AirModel model = air_model(show);
    REQUIRE(model.missing.empty());
    REQUIRE(model.impossible.empty());
    const std::vector<StrokeCommand> commands{{0us, actuator.id, Coil::out}};
    const AirRun run = run_air(model, commands, 20s).value();
    return run.strokes.at(0).reached_s[3].value_or(1e9) * 1000.0;
}

Error refusal(const SizingTask& task, UnitSystem sizes = UnitSystem::metric) {
    const Result<Sizing> sizing = size_rig(task, sizes);
    REQUIRE_FALSE(sizing.has_value());
    return sizing.error();
}

}  // namespace

TEST_CASE("the parts make the wanted time when they are simulated, in both series of sizes") {
    for (const UnitSystem sizes : {UnitSystem::metric, UnitSystem::us}) {
        for (const double wanted : {200.0, 300.0, 800.0, 2500.0}) {
            SizingTask task = rising();
            task.out_ms = wanted;
            const Sizing sizing = size_rig(task, sizes).value();
            INFO(wanted);
            const double ms = simulated_ms(sizing.actuator, sizing.plant);
            CHECK(ms == Approx(sizing.out_ms).epsilon(0.002));
            CHECK(ms <= wanted * 1.001);
            CHECK(ms >= wanted * 0.85);
        }
    }
}

TEST_CASE("the least valve just makes the time") {
    const SizingTask task = rising();
    const Sizing sizing = size_rig(task, UnitSystem::metric).value();
    const SizedFigure& valve = figure(sizing, "valve.supply_c_l_s_bar");
    Actuator least = sizing.actuator;
    least.flow_controls = {};
    least.valve.supply_c_l_s_bar = valve.needed;
    least.valve.exhaust_c_l_s_bar = valve.needed;
    CHECK(simulated_ms(least, sizing.plant) == Approx(300.0).epsilon(0.005));
    least.valve.supply_c_l_s_bar = valve.needed * 0.97;
    least.valve.exhaust_c_l_s_bar = valve.needed * 0.97;
    CHECK(simulated_ms(least, sizing.plant) > 300.0);
    CHECK(valve.chosen >= 1.2 * valve.needed);
}

TEST_CASE("sizes are standard ones, and no smaller bore would do") {
    const Sizing sizing = size_rig(rising(), UnitSystem::metric).value();
    const SizedFigure& bore = figure(sizing, "cylinder.bore_mm");
    const auto bores = standard_bores(UnitSystem::metric);
    const auto taken = std::ranges::find(bores, bore.chosen, &BoreSize::bore_mm);
    REQUIRE(taken != bores.end());
    REQUIRE(taken != bores.begin());
    const double force = piston_force_n((taken - 1)->bore_mm, 0.0, 400.0);
    const double load = 2.7 * 9.80665 * 3.0;
    if (load <= sizing_rules::most_load_share * force) {
        Actuator smaller = sizing.actuator;
        smaller.cylinder.bore_mm = (taken - 1)->bore_mm;
        smaller.cylinder.rod_mm = (taken - 1)->rod_mm;
        smaller.flow_controls = {};
        const double widest = standard_ports(UnitSystem::metric)[(taken - 1)->port].c_l_s_bar / 1.2;
        smaller.valve.supply_c_l_s_bar = widest;
        smaller.valve.exhaust_c_l_s_bar = widest;
        smaller.tube.bore_mm = standard_tubes(UnitSystem::metric).back().bore_mm;
        CHECK(simulated_ms(smaller, sizing.plant) > 0.95 * 300.0);
    }
    for (const SizedFigure& each : sizing.figures) {
        CHECK_FALSE(each.reason.empty());
        CHECK(each.margin >= 0.0);
        CHECK(each.chosen >= each.needed);
    }
    // The literature's form of a tube's conductance, as the air model has it.
    const auto conductance = [](double length_m, double bore_mm) {
        const double wide = bore_mm * 1e-3;
        return 0.029 * wide * wide / std::sqrt(length_m / std::pow(wide, 1.25) + 510.0);
    };
    const SizedFigure& tube = figure(sizing, "tube.bore_mm");
    const double length = *sizing.actuator.tube.length_m;
    CHECK(tube.margin ==
          Approx(conductance(length, tube.chosen) / conductance(length, tube.needed) - 1.0).margin(1e-6));
}

TEST_CASE("receiver and compressor hold through scares on end and over an hour") {
    SizingTask task = rising();
    task.scares_per_h = 120.0;
    task.strokes_per_scare = 2.0;
    const Sizing sizing = size_rig(task, UnitSystem::metric).value();
    CHECK(sizing.lowest_receiver_kpa_gauge >= 400.0);
    // A whole hour of scares every 30 s, from cut-in.
    Show show = empty_show();
    show.rig.air_plant = sizing.plant;
    show.rig.actuators.push_back(sizing.actuator);
    std::vector<StrokeCommand> commands;
    for (int i = 0; i < 120; ++i) {
        for (int stroke = 0; stroke < 2; ++stroke) {
            const auto at = i * 30s + stroke * 5s;
            commands.push_back({at, sizing.actuator.id, Coil::out});
            commands.push_back({at + 2s, sizing.actuator.id, Coil::back});
        }
    }
    AirOptions options;
    options.curves = false;
    const AirRun run = run_air(air_model(show), commands, 3600s, options).value();
    CHECK(run.lowest_receiver_kpa >= 400.0);
    CHECK(run.compressor_on_s / 3600.0 <= 0.5);
    CHECK(run.compressor_on_s / 3600.0 >= 0.3);  // and is not far too large
    CHECK(run.compressor_starts <= 11);
}

TEST_CASE("more pressure, time or a lighter load never ask for a larger bore") {
    REQUIRE(rc::check([] {
        SizingTask task = rising();
        task.mass_kg = *rc::gen::inRange(5, 200) / 10.0;
        task.out_ms = *rc::gen::inRange(200, 1500);
        task.ratio = *rc::gen::inRange(10, 40) / 10.0;
        task.angle_deg = *rc::gen::inRange(0, 90);
        const Result<Sizing> first = size_rig(task, UnitSystem::metric);
        RC_PRE(first.has_value());
        const int which = *rc::gen::inRange(0, 2);
        if (which == 0) {
            task.out_ms = *task.out_ms * 1.3;
        } else {
            task.mass_kg = *task.mass_kg * 0.7;
        }
        const Result<Sizing> easier = size_rig(task, UnitSystem::metric);
        RC_ASSERT(easier.has_value());
        RC_ASSERT(*easier->actuator.cylinder.bore_mm <= *first->actuator.cylinder.bore_mm);
    }));
}

TEST_CASE("a weight or a spring brings it back") {
    SizingTask task = rising();
    task.action = CylinderAction::single_gravity_return;
    const Sizing by_weight = size_rig(task, UnitSystem::metric).value();
    CHECK(by_weight.back_ms > 0.0);
    CHECK(by_weight.actuator.valve.kind == ValveKind::three_two);
    task.action = CylinderAction::single_spring_return;
    task.angle_deg = 0.0;
    const Sizing by_spring = size_rig(task, UnitSystem::metric).value();
    CHECK(by_spring.back_ms > 0.0);
    CHECK(figure(by_spring, "cylinder.spring_n").chosen > 0.0);
    task.action = CylinderAction::single_gravity_return;
    const Error level = refusal(task);
    CHECK(level.where == "action");
    CHECK_FALSE(level.remedy.empty());
}

TEST_CASE("what an actuator of a rig is to do is taken from it, blanks as blanks") {
    const Sizing sizing = size_rig(rising(), UnitSystem::metric).value();
    Show show = empty_show();
    show.rig.air_plant = sizing.plant;
    show.rig.actuators.push_back(sizing.actuator);
    SizingTask task = sizing_task(show, sizing.actuator);
    CHECK(*task.lift_mm == Approx(450.0));
    CHECK(task.mass_kg == 2.7);
    CHECK(task.working_kpa_gauge == 400.0);
    CHECK_FALSE(task.out_ms.has_value());
    CHECK_FALSE(task.scares_per_h.has_value());
    task.out_ms = 300.0;
    task.scares_per_h = 40.0;
    CHECK(size_rig(task, UnitSystem::metric).value().actuator == sizing.actuator);
    show.rig.actuators[0].linkage.kind = LinkageKind::table;
    const SizingTask linked = sizing_task(show, show.rig.actuators[0]);
    CHECK_FALSE(linked.lift_mm.has_value());
    CHECK(*linked.stroke_mm == Approx(150.0));
}

TEST_CASE("a lever instead of a ratio") {
    SizingTask task = rising();
    task.lift_mm.reset();
    task.ratio.reset();
    task.linkage.kind = LinkageKind::lever;
    task.linkage.foot_mm = 400.0;
    task.linkage.pin_mm = 150.0;
    task.linkage.closed_mm = 300.0;
    task.linkage.arm_mm = 450.0;
    task.linkage.arm_deg = -20.0;
    task.stroke_mm = 100.0;
    const Sizing sizing = size_rig(task, UnitSystem::metric).value();
    CHECK(simulated_ms(sizing.actuator, sizing.plant) <= 300.3);
    task.stroke_mm = 400.0;  // beyond where the lever locks
    const Error locked = refusal(task);
    CHECK_FALSE(locked.what.empty());
    CHECK_FALSE(locked.remedy.empty());
}

TEST_CASE("what is blank, absurd or out of reach is named with what would do") {
    for (const FigureField<SizingTask>& field : fields<SizingTask>().figures) {
        constexpr double infinite = std::numeric_limits<double>::infinity();
        for (const double bad : {-1e6, 1e12, infinite, -infinite, std::nan("")}) {
            SizingTask task = rising();
            task.*field.member = bad;
            const Error error = refusal(task);
            INFO(field.key << " " << bad);
            CHECK(error.where == field.key);
            CHECK(error.remedy.starts_with("Give one from "));
        }
    }
    for (const auto member : {&SizingTask::lift_mm, &SizingTask::mass_kg, &SizingTask::out_ms,
                              &SizingTask::scares_per_h, &SizingTask::working_kpa_gauge}) {
        SizingTask task = rising();
        (task.*member).reset();
        CHECK(refusal(task).what.find("is not given") != std::string::npos);
        task.*member = 0.0;
        CHECK(refusal(task).remedy.starts_with("Give one from "));
    }
    SizingTask fast = rising();
    fast.out_ms = 45.0;
    CHECK(refusal(fast).where == "out_ms");
    CHECK(refusal(fast).what.find("the fastest") != std::string::npos);
    SizingTask short_way = rising();
    short_way.lift_mm = 5.0;
    short_way.ratio = 20.0;
    CHECK(refusal(short_way).where == "ratio");
    SizingTask rare = rising();
    rare.scares_per_h = 0.1;
    CHECK(figure(size_rig(rare, UnitSystem::metric).value(), "air_plant.delivery_l_min").chosen >= 1.0);
    SizingTask rapid = rising();
    rapid.lift_mm = 5000.0;
    rapid.ratio = 1.0;
    rapid.out_ms = 8000.0;
    rapid.scares_per_h = 3600.0;
    rapid.mass_kg = 50.0;
    CHECK(refusal(rapid).where == "scares_per_h");
    CHECK(refusal(rapid).what.find("starts an hour") != std::string::npos);
    SizingTask heavy = rising();
    heavy.mass_kg = 500.0;
    heavy.ratio = 20.0;
    heavy.working_kpa_gauge = 50.0;
    CHECK(refusal(heavy).where == "working_kpa_gauge");
    CHECK(refusal(heavy, UnitSystem::us).where == "working_kpa_gauge");
}

TEST_CASE("sizing that is given up stops its work") {
    for_tests::Patience all(1'000'000);
    REQUIRE(size_rig(rising(), UnitSystem::metric, all.stopped()));
    for_tests::Patience patience(3);
    CHECK_FALSE(size_rig(rising(), UnitSystem::metric, patience.stopped()));
    CHECK(patience.asked == 4);
    CHECK(all.asked > 10 * patience.asked);
}
