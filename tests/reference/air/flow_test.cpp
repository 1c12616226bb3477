// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/flow.hpp"

#include "core/air/run/air_run.hpp"
#include "tests/support/catch.hpp"

#include <cmath>

using namespace gasp;

// Sources:
// [C] component makers' engineering pages "Solenoid valves: flow characteristics", citing ISO 6358:1989, JIS
// B
//     8390 and ISO 8778:1990: worked example of flow through a valve.
// [E] open equation-solver exercise "Air supply through a sonic restriction".
// [T] open teaching text on pneumatics (series conductance, tubes, filling and emptying of vessels).
// [B] A. Farrell, "Vessel Blowdown - Ideal Gases", 25 Jan 2025: closed forms, with Botros 1989 and Lees.
// [L] the tube formula of the literature (Eckersten; Beater, Pneumatic Drives): from memory, evaluated.

namespace {

constexpr double warm = 293.15;
constexpr double bar = 1e5;

Conductance litres(double c, double b) {
    return {c * 1e-8, b};
}

/// dm3/min ANR
double per_minute(double mass_flow) {
    return free_air_volume(mass_flow) * 60e3;
}

/// A vessel of `volume` m3 behind a valve: a chamber whose piston carries more than air can lift. Returns the
/// run of the chamber filling from 0, and emptying from 40 s on.
AirRun vessel(double volume, const Conductance& path, double supply, double ambient, ChamberLaw law) {
    AirModel model;
    model.plant.ambient_pressure = ambient;
    model.plant.set_pressure = supply;
    ActuatorModel it;
    it.id = {1};
    it.bore = 0.01;
    it.stroke = 0.001;
    it.out_area = 1e-6;
    it.back_area = 1e-6;
    it.dead_volume = volume;
    it.law = law;
    it.supply = path;
    it.exhaust = path;
    it.cushioned_exhaust = path;
    it.mass = 1e6;
    Actuator upright;
    upright.load.angle_deg = 90.0;
    it.mechanism = Mechanism::make(upright, it.stroke).value();
    model.actuators.push_back(it);
    const std::vector<StrokeCommand> commands{{Micros{0}, {1}, Coil::out},
                                              {Micros{40'000'000}, {1}, Coil::back}};
    AirOptions options;
    options.tolerance = 1e-8;
    return run_air(model, commands, Micros{100'000'000}, options).value();
}

/// When the chamber's absolute pressure first passes `pressure` after `begin`, less `begin`.
double passes(const AirRun& run, double pressure, double ambient, double begin) {
    const double goal = (pressure - ambient) / 1e3;
    const auto& points = run.actuators[0].out_kpa.points;
    for (std::size_t i = 1; i < points.size(); ++i) {
        const CurvePoint& from = points[i - 1];
        const CurvePoint& to = points[i];
        if (to.time_s > begin && (from.value - goal) * (to.value - goal) <= 0.0 && from.value != to.value) {
            return from.time_s + (goal - from.value) / (to.value - from.value) * (to.time_s - from.time_s) -
                   begin;
        }
    }
    return -1.0;
}

}  // namespace

TEST_CASE("flow through a valve by ISO 6358") {
    const Conductance valve = litres(2.0, 0.3);
    // [C]: C 2, 0.4 MPa gauge, 0.1 MPa added: 600 dm3/min ANR choked; 420 to 0.3 MPa gauge.
    CHECK(per_minute(mass_flow(valve, 5 * bar, warm, 1 * bar, warm)) == Approx(600.0).epsilon(1e-3));
    CHECK(per_minute(mass_flow(valve, 5 * bar, warm, 4 * bar, warm)) == Approx(420.0).epsilon(5e-3));
    // [C]: ratio of flow at b 0.3 and a pressure ratio of 0.8: 0.7 (0.69985 by the ellipse)
    CHECK(mass_flow(valve, 5 * bar, warm, 4 * bar, warm) / mass_flow(valve, 5 * bar, warm, bar, warm) ==
          Approx(0.69985).epsilon(1e-4));
    // [C]: at 60 C the flow is 0.938 of that at 20 C.
    CHECK(mass_flow(valve, 5 * bar, 333.15, bar, warm) / mass_flow(valve, 5 * bar, warm, bar, warm) ==
          Approx(0.9380).epsilon(1e-4));
    // [E]: C 1e-8 m3/(s Pa), b 0.35, from 700 kPa: 0.008295 kg/s to 100 kPa and to less; 0.006870 to 500 kPa
    const Conductance restriction{1e-8, 0.35};
    const double choked = mass_flow(restriction, 700e3, warm, 100e3, warm);
    CHECK(choked == Approx(0.008295).margin(1e-7));
    CHECK(mass_flow(restriction, 700e3, warm, 50e3, warm) == Approx(choked).epsilon(1e-12));
    CHECK(mass_flow(restriction, 700e3, warm, 500e3, warm) == Approx(0.006870).epsilon(1e-3));
}

TEST_CASE("flow is signed, continuous and nothing at no difference") {
    const Conductance valve = litres(2.0, 0.3);
    CHECK(mass_flow(valve, 4 * bar, warm, 4 * bar, warm) == 0.0);
    CHECK(mass_flow(valve, 4 * bar, 280.0, 5 * bar, 300.0) ==
          -mass_flow(valve, 5 * bar, 300.0, 4 * bar, 280.0));
    CHECK(forward_flow(valve, 4 * bar, warm, 5 * bar) == 0.0);
    for (const double ratio : {0.3, 0.999}) {
        CHECK(mass_flow(valve, bar, warm, bar * (ratio - 1e-12), warm) ==
              Approx(mass_flow(valve, bar, warm, bar * (ratio + 1e-12), warm)).epsilon(1e-6));
    }
}

TEST_CASE("components in series") {
    const auto two = [](double c1, double c2) { return in_series(litres(c1, 0.0), litres(c2, 0.0)).c * 1e8; };
    // [T], all with 1/C2 = 1/C1^2 + 1/C2^2, which ISO 6358-3 gives at b = 0
    CHECK(two(1.2, 0.9) == Approx(0.72).epsilon(0.01));
    CHECK(two(2.0, 1.0) == Approx(0.894).epsilon(0.01));
    CHECK(two(1.0, 1.0) == Approx(0.71).epsilon(0.01));
    CHECK(in_series(in_series(litres(0.8, 0), litres(1.5, 0)), litres(2.5, 0)).c * 1e8 ==
          Approx(0.679).epsilon(0.01));
    CHECK(in_series(in_series(litres(1.2, 0), litres(1.0, 0)), litres(3.0, 0)).c * 1e8 ==
          Approx(0.7442).epsilon(0.01));
    CHECK(two(1.2, 3.0) == Approx(1.11).epsilon(0.01));   // with a silencer
    CHECK(two(1.2, 0.6) == Approx(0.54).epsilon(0.01));   // and a clogged one
    CHECK(two(1.0, 0.85) == Approx(0.65).epsilon(0.01));  // valve and tube
    CHECK(in_series(litres(0.0, 0.3), litres(1.0, 0.3)).c == 0.0);
}

TEST_CASE("the pressure between two components in series is the one at which both pass the same") {
    const Conductance first = litres(1.3, 0.35);
    const Conductance second = litres(0.9, 0.2);
    const Conductance both = in_series(first, second);
    // No source: choked flow of the second from the pressure in between is what the first lets through.
    double low = bar;
    double high = 7 * bar;
    for (int i = 0; i < 100; ++i) {
        const double middle = (low + high) / 2;
        (mass_flow(first, 7 * bar, warm, middle, warm) > mass_flow(second, middle, warm, 1.0, warm) ? low
                                                                                                    : high) =
            middle;
    }
    CHECK(mass_flow(both, 7 * bar, warm, 1.0, warm) ==
          Approx(mass_flow(second, low, warm, 1.0, warm)).epsilon(1e-9));
}

TEST_CASE("components side by side") {
    const Conductance both = in_parallel(litres(1.0, 0.2), litres(2.0, 0.5));
    CHECK(both.c * 1e8 == Approx(3.0));
    const auto at_nine_tenths = [](const Conductance& path) {
        return mass_flow(path, bar, warm, 0.9 * bar, warm);
    };
    CHECK(at_nine_tenths(both) ==
          Approx(at_nine_tenths(litres(1.0, 0.2)) + at_nine_tenths(litres(2.0, 0.5))).epsilon(1e-12));
    CHECK(in_parallel(litres(1.0, 0.3), litres(2.0, 0.3)).b == Approx(0.3));
}

TEST_CASE("tubes") {
    struct Row {
        double bore_mm, length, c, b;
    };
    for (const Row row : {Row{4, 1, 1.196, 0.354},
                          {4, 2, 0.928, 0.275},
                          {4, 10, 0.454, 0.134},
                          {6, 2, 2.526, 0.333},
                          {8, 5, 3.640, 0.270},
                          {2.5, 1, 0.378, 0.287}}) {  // [L]
        const Conductance tube = of_tube(row.length, row.bore_mm / 1e3);
        CHECK(tube.c * 1e8 == Approx(row.c).epsilon(5e-3));
        CHECK(tube.b == Approx(row.b).epsilon(5e-3));
    }
    // [T] by friction and entry, another model: about 1.0 for 4 mm and 2 m, within the 10 % both models are
    // apart
    CHECK(of_tube(2.0, 0.004).c * 1e8 == Approx(1.0).epsilon(0.10));
    CHECK(wave_delay(3.0, warm) * 1e3 == Approx(8.7).epsilon(0.03));  // [T], 343 m/s
}

TEST_CASE("a leak by its fall of pressure is the choked, isothermal closed form") {
    // [T]: p = p1 exp(-t / (V / (C p0))) while choked
    const double volume = 0.050;
    const double time = volume / (1e-9 * bar) * std::log(8.0 / 5.0);
    CHECK(of_leak(volume, warm, bar, 8 * bar, 5 * bar, time, 0.25).c == Approx(1e-9).epsilon(1e-9));
}

TEST_CASE("filling and emptying vessels") {
    const double air = 1.01325 * bar;
    const double supply = 6 * bar + air;
    const Conductance one = litres(1.0, 0.3);
    const AirRun cold = vessel(1e-3, one, supply, air, ChamberLaw::isothermal);
    const AirRun warmed = vessel(1e-3, one, supply, air, ChamberLaw::adiabatic);
    // [T]: 1 L, C 1, b 0.3, 6 bar gauge: choked up to 2.10 bar absolute within 0.156 s isothermal, 0.111 s
    // adiabatic, straight in time
    CHECK(passes(cold, 2.10 * bar, air, 0.0) == Approx(0.156).epsilon(0.01));
    CHECK(passes(warmed, 2.10 * bar, air, 0.0) == Approx(0.111).epsilon(0.01));
    CHECK(passes(cold, 1.56 * bar, air, 0.0) / passes(cold, 2.10 * bar, air, 0.0) ==
          Approx((1.56 - 1.01325) / (2.10 - 1.01325)).epsilon(3e-3));
    // [T]: to 98 % of 6 bar gauge 1.10 s and 0.79 s
    CHECK(passes(cold, 5.88 * bar + air, air, 0.0) == Approx(1.10).epsilon(0.01));
    CHECK(passes(warmed, 5.88 * bar + air, air, 0.0) == Approx(0.79).epsilon(0.01));
    // [T]: empty to 2 % in 1.98 s and 1.63 s; the latter starts from 20 C, ours from the heat of the filling
    CHECK(passes(cold, 0.12 * bar + air, air, 40.0) == Approx(1.98).epsilon(0.01));
    // [T]: 10 L, 1.013 to 2.0 bar absolute, C 2, 7.013 bar supply: 0.704 s
    CHECK(passes(vessel(1e-2, litres(2.0, 0.2), supply, air, ChamberLaw::isothermal), 2.0 * bar, air, 0.0) ==
          Approx(0.704).epsilon(0.01));
    // [T]: 50 L from 7 bar gauge, C 5, b 0.3, to 3.38 bar absolute: 8.6 s
    CHECK(passes(vessel(5e-2, litres(5.0, 0.3), 7 * bar + air, air, ChamberLaw::isothermal), 3.38 * bar, air,
                 40.0) == Approx(8.6).epsilon(0.01));
}

TEST_CASE("blow-down of a vessel by the closed forms of isothermal and adiabatic choked flow") {
    // [B]: 20 L, 8 to 2 bar absolute, all choked: isothermal tau ln(p1/p2); adiabatic
    // p/p0 = (1 + (k-1)/2 t/tau)^(2k/(1-k)), tau by the choked flow at the start.
    const double volume = 0.020;
    const Conductance hole{volume / (14.24 * bar), 0.45};  // tau 14.24 s: their 3 mm hole
    const double supply = 8 * bar;
    const double vacuum = 0.5 * bar;
    const AirRun isothermal = vessel(volume, hole, supply, vacuum, ChamberLaw::isothermal);
    CHECK(passes(isothermal, 2 * bar, vacuum, 40.0) == Approx(19.75).epsilon(5e-3));
    // The adiabatic one starts from the temperature that filling left: its flow is that of the hot air.
    const AirRun adiabatic = vessel(volume, hole, supply, vacuum, ChamberLaw::adiabatic);
    const double fill = (1.0 + (heat_ratio - 1.0) * vacuum / supply) / heat_ratio;
    const double hot = std::sqrt(1.0 / fill);  // root of T over T0 after filling from T0
    const double tau = 14.24 / hot;
    const double time =
        tau * 2.0 / (heat_ratio - 1.0) * (std::pow(2.0 / 8.0, (1.0 - heat_ratio) / (2.0 * heat_ratio)) - 1.0);
    CHECK(passes(adiabatic, 2 * bar, vacuum, 40.0) == Approx(time).epsilon(5e-3));
}

TEST_CASE("pumping up a receiver") {
    // Compressed-air pump-up test formula: t = V (p2 - p1) / (Q pa); 100 gal, 0 to 120 psi, 15 cfm: 7.3 min.
    AirModel model;
    const double psi = 6894.757;
    model.plant.ambient_pressure = 14.7 * psi;
    model.plant.set_pressure = 130 * psi;
    model.plant.receiver = 0.378541;
    model.plant.cut_in = 100 * psi;
    model.plant.cut_out = 134.7 * psi;
    model.plant.delivery = 15 * 4.719474e-4 * 14.7 * psi / (gas_constant * warm);
    AirOptions options;
    options.receiver_kpa_gauge = 0.0;
    const AirRun run = run_air(model, {}, Micros{1'000'000'000}, options).value();
    CHECK(run.compressor_on_s / 60.0 == Approx(13.37 * (120 / 14.7) / 15).epsilon(0.002));
    CHECK(run.compressor_on_s / 60.0 == Approx(7.3).epsilon(0.01));
}
