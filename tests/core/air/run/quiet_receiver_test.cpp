// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/quiet_receiver.hpp"

#include "core/air/run/air_run.hpp"
#include "tests/support/catch.hpp"
#include "tests/support/night_rig.hpp"

using namespace gasp;
using namespace gasp::for_tests;
using namespace std::chrono_literals;

namespace {

/// The receiver alone by run_air: two strokes at the very end, so that there is something to simulate.
AirRun simulated(const Show& show, double start_kpa, Micros length) {
    AirOptions options;
    options.receiver_kpa_gauge = start_kpa;
    const std::vector<StrokeCommand> commands{{length, keeper, Coil::out}};
    return run_air(air_model(show), commands, length, options).value();
}

QuietReceiver in_closed_form(const Show& show, double start_kpa, double time_s) {
    const PlantModel plant = air_model(show).plant;
    QuietReceiver receiver(plant, {}, plant.ambient_pressure + start_kpa * 1e3);
    receiver.advance_to(time_s);
    return receiver;
}

double kpa(const Show& show, const QuietReceiver& receiver) {
    return (receiver.state().pressure - air_model(show).plant.ambient_pressure) * 1e-3;
}

}  // namespace

TEST_CASE("pumping up takes volume times pressure over delivery") {
    // Common handbook rule (Compressed Air and Gas Institute, Handbook, receiver pump-up; from memory):
    // t = V (p2 - p1) / (p_amb Q). 100 L from 6 to 8 bar with 120 L/min at sea level: 98.69 s.
    Show show = night_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 100.0;
    plant.cut_in_kpa_gauge = 600.0;
    plant.cut_out_kpa_gauge = 800.0;
    plant.delivery_l_min = 120.0;
    const QuietReceiver receiver = in_closed_form(show, 600.0, 1000.0);
    CHECK(receiver.state().on_s == Approx(100.0 * 200.0 / (101.325 * 2.0)));
    CHECK(kpa(show, receiver) == Approx(800.0));
    CHECK_FALSE(receiver.state().on);
}

TEST_CASE("over idle time the closed form is that of run_air: switch, leak, falling delivery") {
    for (const bool choked : {true, false}) {
        Show show = night_show();
        AirPlant& plant = show.rig.air_plant;
        plant.leak_c_l_s_bar = 0.02;
        plant.delivery_at_kpa_gauge = 0.0;
        plant.second_delivery_l_min = 30.0;
        plant.second_delivery_at_kpa_gauge = 800.0;
        if (!choked) {
            plant.cut_in_kpa_gauge = 90.0;
            plant.cut_out_kpa_gauge = 180.0;
            plant.regulator_kpa_gauge = 60.0;
        }
        const double start = choked ? 700.0 : 150.0;
        for (const Micros length : {Micros{20s}, Micros{700s}, Micros{3600s}}) {
            const AirRun run = simulated(show, start, length);
            const QuietReceiver receiver = in_closed_form(show, start, to_s(length));
            CAPTURE(choked, to_s(length));
            CHECK(kpa(show, receiver) == Approx(run.receiver_kpa.points.back().value).margin(0.3));
            CHECK(receiver.state().starts == run.compressor_starts);
            CHECK(receiver.state().on_s == Approx(run.compressor_on_s).margin(0.3));
        }
    }
}

TEST_CASE("a draw known beforehand is taken off evenly") {
    const Show show = night_show();
    const PlantModel plant = air_model(show).plant;
    QuietReceiver receiver(plant, {}, plant.ambient_pressure + 760e3);
    constexpr double mass = 1e-3;
    receiver.draw(mass / 2.0);
    receiver.advance_to(2.0);
    receiver.draw(0.0);
    receiver.advance_to(10.0);
    const double fall = mass * gas_constant * plant.ambient_temperature / plant.receiver;
    CHECK(kpa(show, receiver) == Approx(760.0 - fall * 1e-3));
}

TEST_CASE("a state can be gone back to") {
    const Show show = night_show();
    const PlantModel plant = air_model(show).plant;
    QuietReceiver receiver(plant, {}, plant.ambient_pressure + 551e3);
    receiver.draw(1e-3);
    const QuietReceiver::State before = receiver.state();
    receiver.advance_to(500.0);
    const QuietReceiver::State after = receiver.state();
    CHECK(after.starts > 0);
    receiver.restore(before);
    CHECK(receiver.state().starts == 0);
    receiver.advance_to(500.0);
    CHECK(receiver.state().pressure == after.pressure);
    CHECK(receiver.state().on_s == after.on_s);
}

TEST_CASE("without compressor or receiver nothing switches and nothing hangs") {
    Show show = night_show();
    show.rig.air_plant.delivery_l_min.reset();
    show.rig.air_plant.leak_c_l_s_bar = 1.0;
    const QuietReceiver empty = in_closed_form(show, 700.0, 86'400.0);
    CHECK(kpa(show, empty) == Approx(0.0).margin(0.01));
    CHECK(empty.state().starts == 0);
    show.rig.air_plant.receiver_l.reset();
    CHECK(kpa(show, in_closed_form(show, 420.0, 86'400.0)) == 420.0);
    show = night_show();
    show.rig.air_plant.cut_out_kpa_gauge = 550.001;
    show.rig.air_plant.leak_c_l_s_bar = 0.02;
    CHECK(in_closed_form(show, 550.0, 86'400.0).chatters());
}
