// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors

// Strokes against scipy's solve_ivp (Debian's python3-scipy) on the same equations, which strokes.py works
// out from the rig's figures by itself: nothing of ours but those figures goes in. The promise is 2 % of a
// stroke's time and 1 % of its free air; what is asked here is far closer.
#include "core/air/run/air_run.hpp"
#include "core/show/fields.hpp"
#include "tests/support/catch.hpp"

#include <nlohmann/json.hpp>

#include <cstdio>
#include <fstream>
#include <functional>
#include <string>
#include <vector>

using namespace gasp;
using nlohmann::json;

namespace {

struct TestRig {
    std::string name;
    Show show = empty_show();
    std::vector<StrokeCommand> commands;
    Micros length{2'500'000};

    AirPlant& plant() { return show.rig.air_plant; }
    Actuator& first() { return show.rig.actuators.front(); }
};

Actuator plain_actuator(std::uint32_t id) {
    Actuator it;
    it.id = {id};
    it.name = "actuator " + std::to_string(id);
    it.cylinder.bore_mm = 40;
    it.cylinder.rod_mm = 16;
    it.cylinder.stroke_mm = 200;
    it.cylinder.dead_ml = 15;
    it.valve.opening_delay_ms = 20;
    it.valve.closing_delay_ms = 30;
    it.valve.supply_c_l_s_bar = 3;
    it.valve.supply_b = 0.32;
    it.valve.exhaust_c_l_s_bar = 2.6;
    it.valve.exhaust_b = 0.28;
    it.tube.length_m = 2;
    it.tube.bore_mm = 6;
    it.load.mass_kg = 5;
    it.load.angle_deg = 30;
    return it;
}

/// One actuator out at 0.1 s and back at 1.1 s.
TestRig plain(std::string name) {
    TestRig rig;
    rig.name = std::move(name);
    AirPlant& plant = rig.plant();
    plant.receiver_l = 24;
    plant.cut_in_kpa_gauge = 600;
    plant.cut_out_kpa_gauge = 800;
    plant.delivery_l_min = 60;
    plant.regulator_kpa_gauge = 500;
    plant.regulator_c_l_s_bar = 8;
    plant.regulator_b = 0.35;
    plant.altitude_m = 0;
    plant.temperature_c = 20;
    rig.show.rig.actuators.push_back(plain_actuator(1));
    rig.commands = {{Micros{100'000}, {1}, Coil::out}, {Micros{1'100'000}, {1}, Coil::back}};
    return rig;
}

TestRig gravity_return() {
    TestRig rig = plain("single-acting, straight up, back by its weight");
    rig.first().cylinder.action = CylinderAction::single_gravity_return;
    rig.first().valve.kind = ValveKind::three_two;
    rig.first().load.angle_deg = 90;
    rig.first().load.mass_kg = 18;
    rig.first().tube.length_m = 3.5;
    rig.first().flow_controls.silencer_c_l_s_bar = 2;
    return rig;
}

TestRig spring_return() {
    TestRig rig = plain("single-acting, back by a spring, quick exhaust");
    rig.first().cylinder.action = CylinderAction::single_spring_return;
    rig.first().valve.kind = ValveKind::three_two;
    rig.first().cylinder.spring_n = 90;
    rig.first().cylinder.spring_rate_n_mm = 0.6;
    rig.first().load.angle_deg = 0;
    rig.first().flow_controls.quick_exhaust_c_l_s_bar = 6;
    rig.first().flow_controls.quick_exhaust_b = 0.2;
    return rig;
}

TestRig throttled() {
    TestRig rig = plain("metered out at the cylinder, cushioned, three kinds of friction");
    Actuator& it = rig.first();
    it.flow_controls.place = ControlPlace::at_cylinder;
    it.flow_controls.out_c_l_s_bar = 0.8;
    it.flow_controls.out_b = 0.25;
    it.flow_controls.in_c_l_s_bar = 2.0;
    it.cylinder.cushion_mm = 25;
    it.cylinder.cushion_c_l_s_bar = 0.25;
    it.cylinder.friction_n = 40;
    it.cylinder.static_friction_n = 75;
    it.cylinder.viscous_n_s_m = 60;
    it.cylinder.rod_mass_kg = 0.7;
    return rig;
}

TestRig lever() {
    TestRig rig = plain("lever with a counterweight");
    Actuator& it = rig.first();
    it.linkage.kind = LinkageKind::lever;
    it.linkage.foot_mm = 420;
    it.linkage.pin_mm = 180;
    it.linkage.closed_mm = 330;
    it.linkage.arm_mm = 600;
    it.linkage.arm_deg = -50;
    it.load.mass_kg = 4;
    it.load.counter_n = -60;
    it.load.counter_rate_n_mm = 0.1;
    return rig;
}

TestRig table() {
    TestRig rig = plain("measured linkage, valve that opens slowly");
    Actuator& it = rig.first();
    it.linkage.kind = LinkageKind::table;
    it.linkage.arm_mm = 450;
    it.linkage.points = {{0, -20}, {50, 8}, {90, 26}, {150, 52}, {200, 80}};
    it.load.mass_kg = 6;
    it.valve.ramp_ms = 60;
    return rig;
}

TestRig reservoir() {
    TestRig rig = plain("reservoir beside the prop behind a thin tube, high up and cold, leaking");
    AirPlant& plant = rig.plant();
    plant.altitude_m = 1500;
    plant.temperature_c = 4;
    plant.leak_c_l_s_bar = 0.05;
    plant.delivery_at_kpa_gauge = 0;
    plant.second_delivery_l_min = 40;
    plant.second_delivery_at_kpa_gauge = 800;
    rig.first().feed.length_m = 8;
    rig.first().feed.bore_mm = 4;
    rig.first().feed.reservoir_l = 3;
    return rig;
}

TestRig starved() {
    TestRig rig = plain("two actuators on a receiver too small, the regulator wide open");
    rig.plant().receiver_l = 2;
    rig.plant().cut_in_kpa_gauge = 480;
    rig.plant().cut_out_kpa_gauge = 500;
    rig.show.rig.actuators.push_back(plain_actuator(2));
    rig.show.rig.actuators.back().load.mass_kg = 9;
    rig.commands = {{Micros{100'000}, {1}, Coil::out},
                    {Micros{160'000}, {2}, Coil::out},
                    {Micros{1'100'000}, {1}, Coil::back},
                    {Micros{1'150'000}, {2}, Coil::back}};
    return rig;
}

template <class T>
json figures(const T& part) {
    json out = json::object();
    for (const ChoiceField<T>& field : fields<T>().choices) {
        out[std::string(field.key)] = std::string(field.keys[field.get(part)]);
    }
    for (const FigureField<T>& field : fields<T>().figures) {
        if (const Figure& figure = part.*field.member) {
            out[std::string(field.key)] = *figure;
        }
    }
    return out;
}

json as_json(const TestRig& rig) {
    json out{{"plant", figures(rig.show.rig.air_plant)},
             {"length_s", to_s(rig.length)},
             {"actuators", json::array()},
             {"commands", json::array()}};
    for (const Actuator& actuator : rig.show.rig.actuators) {
        json parts = json::object();
        for_each_actuator_part([&](std::string_view key, auto, auto member) {
            parts[std::string(key)] = figures(actuator.*member);
        });
        for (const LinkagePoint& point : actuator.linkage.points) {
            parts["linkage"]["points_mm_deg"].push_back({point.travel_mm, point.arm_deg});
        }
        out["actuators"].push_back(parts);
    }
    for (const StrokeCommand& command : rig.commands) {
        out["commands"].push_back(
            {to_s(command.time), command.actuator.value - 1, command.way == Coil::out ? 1 : 0});
    }
    return out;
}

json by_scipy(const std::vector<TestRig>& rigs) {
    json all = json::array();
    for (const TestRig& rig : rigs) {
        all.push_back(as_json(rig));
    }
    const std::string path = std::string(GASPWORKS_BINARY_DIR) + "/tests/reference/air/rigs.json";
    std::ofstream(path) << all;
    const std::string command =
        "/usr/bin/python3 " GASPWORKS_SOURCE_DIR "/tests/reference/air/strokes.py '" + path + "'";
    std::FILE* const pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    for (int c = std::fgetc(pipe); c != EOF; c = std::fgetc(pipe)) {
        text.push_back(static_cast<char>(c));
    }
    REQUIRE(pclose(pipe) == 0);
    return json::parse(text);
}

/// The largest differences found, for the record.
struct Differences {
    double time = 0.0;
    double air = 0.0;
    double speed = 0.0;

    static void widen(double& largest, double ours, double theirs) {
        largest = std::max(largest, std::abs(ours / theirs - 1.0));
    }
};

void compare(const Stroke& ours, const json& theirs, Differences& differences) {
    INFO((ours.command.way == Coil::out ? "out" : "back") << " of " << ours.command.actuator.value);
    const char* const shares[]{"10", "50", "95", "100"};
    for (std::size_t i = 0; i < 4; ++i) {
        INFO(shares[i] << " %");
        REQUIRE(ours.reached_s[i].has_value() == theirs.contains(shares[i]));
        if (ours.reached_s[i]) {
            CHECK(*ours.reached_s[i] == Approx(theirs.at(shares[i]).get<double>()).epsilon(1e-4));
            Differences::widen(differences.time, *ours.reached_s[i], theirs.at(shares[i]));
        }
    }
    if (theirs.contains("speed")) {
        CHECK(ours.end_speed_m_s == Approx(theirs.at("speed").get<double>()).epsilon(1e-3));
        Differences::widen(differences.speed, ours.end_speed_m_s, theirs.at("speed"));
    }
    const double air = theirs.at("free_air_l");
    CHECK(ours.free_air_l == Approx(air).epsilon(1e-3).margin(1e-6));
    CHECK(ours.left_receiver_l ==
          Approx(theirs.at("left_receiver_l").get<double>()).epsilon(1e-3).margin(1e-6));
    if (air > 1e-3) {
        Differences::widen(differences.air, ours.free_air_l, air);
    }
    if (theirs.contains("receiver_kpa")) {
        CHECK(ours.receiver_at_strike_kpa == Approx(theirs.at("receiver_kpa").get<double>()).epsilon(1e-4));
    }
}

}  // namespace

TEST_CASE("strokes of eight rigs are those of scipy's solve_ivp on the same equations") {
    const std::vector<TestRig> rigs{plain("double-acting, 30 degrees up"),
                                    gravity_return(),
                                    spring_return(),
                                    throttled(),
                                    lever(),
                                    table(),
                                    reservoir(),
                                    starved()};
    const json theirs = by_scipy(rigs);
    Differences differences;
    for (std::size_t i = 0; i < rigs.size(); ++i) {
        INFO(rigs[i].name);
        const AirModel model = air_model(rigs[i].show);
        REQUIRE(model.missing.empty());
        REQUIRE(model.impossible.empty());
        const Result<AirRun> run = run_air(model, rigs[i].commands, rigs[i].length);
        REQUIRE(run);
        const json& strokes = theirs[i].at("strokes");
        REQUIRE(run->strokes.size() == strokes.size());
        for (std::size_t k = 0; k < strokes.size(); ++k) {
            compare(run->strokes[k], strokes[k], differences);
        }
        CHECK(run->receiver_kpa.points.back().value ==
              Approx(theirs[i].at("receiver_kpa").get<double>()).epsilon(1e-4));
    }
    WARN("largest difference: time " << differences.time * 100 << " %, free air " << differences.air * 100
                                     << " %, speed at the stop " << differences.speed * 100 << " %");
}
