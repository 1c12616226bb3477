// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/air_model.hpp"

#include "core/air/model/base_load.hpp"
#include "core/show/fields.hpp"
#include "tests/support/air_rig.hpp"
#include "tests/support/catch.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <random>

using namespace gasp;
using namespace gasp::for_tests;

namespace {

bool names(const std::vector<Error>& errors, std::string_view where) {
    return std::ranges::any_of(errors, [&](const Error& error) { return error.where == where; });
}

bool assumes(const AirModel& model, std::string_view key) {
    return std::ranges::any_of(model.assumptions, [&](const Assumption& a) { return a.field.key == key; });
}

}  // namespace

TEST_CASE("the model says what it did without, and what it cannot do without") {
    Show show = rig_of_one();
    const AirModel whole = air_model(show);
    CHECK(whole.missing.empty());
    CHECK(whole.impossible.empty());
    CHECK_FALSE(assumes(whole, "cylinder.dead_ml"));
    CHECK(assumes(whole, "valve.supply_b"));

    show.rig.actuators[0].cylinder.dead_ml.reset();
    show.rig.actuators[0].cylinder.friction_n.reset();
    const AirModel assumed = air_model(show);
    CHECK(assumes(assumed, "cylinder.dead_ml"));
    CHECK(assumes(assumed, "load.friction_percent"));
    // A tenth of the force of 500 kPa on a 40 mm piston
    CHECK(assumed.actuators.at(0).moving_friction == Approx(62.83).epsilon(1e-3));

    show.rig.actuators[0].cylinder.bore_mm.reset();
    const AirModel lacking = air_model(show);
    CHECK(lacking.actuators.empty());
    REQUIRE(lacking.missing.size() == 1);
    CHECK(lacking.missing[0].key == "cylinder.bore_mm");

    show.rig.air_plant.regulator_kpa_gauge.reset();
    REQUIRE_FALSE(air_model(show).missing.empty());
    CHECK(air_model(show).missing[0].key == "air_plant.regulator_kpa_gauge");
}

TEST_CASE("figures that cannot be are refused by field and range, whatever they are") {
    const double infinite = std::numeric_limits<double>::infinity();
    for (const double absurd : {0.0, -1.0, infinite, -infinite, std::nan(""), 5000.0, 1e8}) {
        INFO(absurd);
        Show show = rig_of_one();
        show.rig.actuators[0].cylinder.bore_mm = absurd;
        const AirModel model = air_model(show);
        CHECK(model.actuators.empty());
        CHECK(names(model.impossible, "cylinder.bore_mm"));
    }
    Show pressed = rig_of_one();
    pressed.rig.air_plant.regulator_kpa_gauge = 1e8;  // 10^6 bar
    CHECK(names(air_model(pressed).impossible, "air_plant.regulator_kpa_gauge"));
    Show thick = rig_of_one();
    thick.rig.actuators[0].cylinder.rod_mm = 40;
    CHECK(names(air_model(thick).impossible, "cylinder.rod_mm"));
    Show crossed = rig_of_one();
    crossed.rig.air_plant.cut_in_kpa_gauge = 900;
    CHECK(names(air_model(crossed).impossible, "air_plant.cut_out_kpa_gauge"));
}

TEST_CASE("every figure at either end of its range gives a run or an error, in bounded time") {
    for_each_actuator_part([]<class T>(std::string_view key, auto, T Actuator::*part) {
        for (const FigureField<T>& field : fields<T>().figures) {
            for (const double value : {field.least, field.most}) {
                INFO(key << "." << field.key << " = " << value);
                Show show = rig_of_one();
                show.rig.actuators[0].*part.*field.member = value;
                AirOptions options;
                options.curves = false;
                const AirModel model = air_model(show);
                const Result<AirRun> run = run_air(model, out_and_back(), Micros{3'000'000}, options);
                if (run && !run->strokes.empty()) {
                    CHECK(std::isfinite(run->free_air_l));
                    CHECK(std::isfinite(run->lowest_receiver_kpa));
                    CHECK(std::isfinite(run->strokes[0].end_speed_m_s));
                } else if (!run) {
                    CHECK_FALSE(run.error().what.empty());
                }
            }
        }
    });
}

namespace {

/// Gives some figures of a part any value within their ranges, small ones as often as large ones.
template <class T>
void scatter(T& part, std::mt19937_64& random) {
    std::uniform_real_distribution<double> share;
    for (const FigureField<T>& field : fields<T>().figures) {
        if (share(random) < 0.25) {
            const double span = std::pow(share(random), 4);
            part.*field.member = field.least > 0.0
                                     ? field.least * std::pow(field.most / field.least, share(random))
                                     : field.least + (field.most - field.least) * span;
        }
    }
    for (const ChoiceField<T>& choice : fields<T>().choices) {
        choice.set(part, random() % choice.keys.size());
    }
}

}  // namespace

TEST_CASE("any rig within its ranges gives finite strokes, or is refused") {
    std::mt19937_64 random(5);
    AirOptions options;
    options.curves = false;
    int simulated = 0;
    for (int i = 0; i < 400; ++i) {
        INFO("rig " << i);
        Show show = rig_of_one();
        for_each_actuator_part([&](auto, auto, auto member) {
            if (random() % 3 == 0) {
                scatter(show.rig.actuators[0].*member, random);
            }
        });
        const AirModel model = air_model(show);
        if (model.actuators.empty()) {
            CHECK_FALSE((model.missing.empty() && model.impossible.empty()));
            continue;
        }
        const Result<AirRun> run = run_air(model, out_and_back(), Micros{3'000'000}, options);
        REQUIRE(run);
        ++simulated;
        CHECK(std::isfinite(run->free_air_l));
        for (const Stroke& stroke : run->strokes) {
            CHECK(std::isfinite(stroke.end_speed_m_s));
            CHECK(std::isfinite(stroke.peak_force_n));
        }
    }
    CHECK(simulated > 100);
}

TEST_CASE("factors vary the uncertain inputs and nothing else") {
    const AirModel model = air_model(rig_of_one());
    CHECK(varied(model, {}).actuators[0].supply == model.actuators[0].supply);
    const ActuatorModel other = varied(model, {2.0, 3.0, 0.5, 1.5, 1.2}).actuators[0];
    CHECK(other.moving_friction == Approx(2 * model.actuators[0].moving_friction));
    CHECK(other.heat_transfer == Approx(150.0));
    CHECK(other.supply.c == Approx(0.5 * model.actuators[0].supply.c));
    CHECK(other.opening_delay == Approx(0.030));
    CHECK(other.mass == Approx(6.0));
    CHECK(other.stroke == model.actuators[0].stroke);
}

TEST_CASE("what a stroke does to its base") {
    Actuator it = rig_of_one().rig.actuators[0];
    CHECK(blanks_of_base(it).size() == 3);
    CHECK_FALSE(base_load(it, 500));
    it.base.depth_mm = 800;
    it.base.height_mm = 1200;
    it.base.mass_kg = 40;
    it.load.angle_deg = 0;
    // By the lever rule: 500 N at 1.2 m against 40 kg over 0.4 m; the rest at a bolt 0.8 m away.
    const BaseLoad load = base_load(it, 500).value();
    CHECK(load.moment_nm == Approx(600.0));
    CHECK(load.holding_nm == Approx(156.9064));
    CHECK(load.anchor_n == Approx((600 - 156.9064) / 0.8));
    CHECK(load.ballast_kg == Approx((600 - 156.9064) / (9.80665 * 0.4)));
    it.base.mass_kg = 400;
    CHECK(base_load(it, 500)->anchor_n == 0.0);
}
