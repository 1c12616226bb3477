// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/reference/air/rig.hpp"
#include "tests/support/catch.hpp"

#include <chrono>

using namespace gasp;
using namespace gasp::reference;
using namespace std::chrono_literals;

// Receiver and compressor against published worked examples.

namespace {

constexpr double litres_in_gallon = 3.785411784;
double psi(double kpa) {
    return kpa / 6.894757293168;
}

struct Draw {
    double receiver_gal;
    double from_psi;
    double scf;  ///< drawn in all
    double compressor_cfm;
    Micros over;
    int strokes = 400;
};

/// The pressure at the end, psi gauge, when a single-acting cylinder of the right size draws the air in even
/// steps.
double left_psi(const Draw& draw) {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant = plant_at("80 psi");
    plant.receiver_l = draw.receiver_gal * litres_in_gallon;
    plant.cut_in_kpa_gauge = draw.from_psi * 6.894757293168;
    plant.cut_out_kpa_gauge = 4000.0;
    plant.delivery_l_min = draw.compressor_cfm * litres_in_cubic_foot;
    Actuator actuator = single_acting("4 in", "10 in");
    const double wanted_l = draw.scf * litres_in_scf / draw.strokes;
    *actuator.cylinder.stroke_mm *= wanted_l / stroke_air(plant, actuator)->out_l;
    show.rig.actuators.push_back(actuator);
    std::vector<StrokeCommand> commands;
    for (int i = 0; i < draw.strokes; ++i) {
        const Micros step = draw.over / draw.strokes;
        commands.push_back({i * step, actuator.id, Coil::out});
        commands.push_back({i * step + step / 2, actuator.id, Coil::back});
    }
    const AirBudget result = budget(show, commands, draw.over);
    CHECK(result.free_air_l == Approx(draw.scf * litres_in_scf));
    return psi(result.curve.back().receiver_kpa_gauge);
}

constexpr double no_compressor = 1e-9;

double ambient_psia(double feet) {
    AirPlant plant;
    plant.altitude_m = feet * 0.3048;
    return psi(ambient_kpa(plant));
}

}  // namespace

TEST_CASE("a receiver feeding 20 scfm for 6 minutes, without and with a compressor", "[reference]") {
    // A. Esposito, Fluid Power with Applications, example 13-7: 660 gal fall from 100 to 80 psi; with 5 scfm
    // from the compressor 495 gal do.
    CHECK(100 - left_psi({660, 100, 120, no_compressor, 6min}) == Approx(20).epsilon(0.005));
    CHECK(100 - left_psi({495, 100, 120, 5, 6min}) == Approx(20).epsilon(0.005));
}

TEST_CASE("usable air of a receiver", "[reference]") {
    // Oak Ridge National Laboratory, AMO-Tools-Suite, CompressedAir.unit.cpp: usable capacity. The suite
    // takes 7.48 gallons to the cubic foot (exactly 7.4805), hence 0.02 %.
    constexpr double tolerance = 0.0002;
    CHECK(110 - left_psi({660, 110, 60.024, no_compressor, 1min}) == Approx(10).epsilon(tolerance));
    CHECK(110 - left_psi({760, 110, 69.11856, no_compressor, 1min}) == Approx(10).epsilon(tolerance));
    CHECK(150 - left_psi({760, 150, 345.59278, no_compressor, 1min}) == Approx(50).epsilon(tolerance));
    CHECK(150 - left_psi({760, 150, 138.23711, no_compressor, 1min}) == Approx(20).epsilon(tolerance));
}

TEST_CASE("a surge of 350 cfm against 250 cfm of compressor for 5 minutes", "[reference]") {
    // A. Srivastava, air receiver sizing sheet: 1374.5 gal fall from 100 to 60 psi.
    CHECK(100 - left_psi({1374.5, 100, 350 * 5, 250, 5min}) == Approx(40).epsilon(0.01));
}

TEST_CASE("pumping up 100 gal to 120 psi with 15 cfm", "[reference]") {
    // accurateair.com pump-up test formula, V (Pmax/Patm) / t: 7.3 min.
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant.receiver_l = 100 * litres_in_gallon;
    plant.cut_in_kpa_gauge = 0.0;
    plant.cut_out_kpa_gauge = gauge("120 psi");
    plant.delivery_l_min = 15 * litres_in_cubic_foot;
    const AirBudget filling = budget(show, {}, 20min);
    REQUIRE(filling.curve.size() == 3);
    CHECK(to_s(filling.curve[1].time) / 60.0 == Approx(7.28).epsilon(0.01));
    CHECK(filling.curve[1].receiver_kpa_gauge == Approx(gauge("120 psi")));
    CHECK(filling.curve[2].receiver_kpa_gauge == Approx(gauge("120 psi")));
    // At 5000 ft the same compressor gives 0.832 of its air: density ratio of the ISA.
    plant.altitude_m = 5000 * 0.3048;
    const double slower = to_s(budget(show, {}, 20min).curve[1].time) / to_s(filling.curve[1].time);
    CHECK(1.0 / slower == Approx(0.832).epsilon(0.002));
}

TEST_CASE("pressure of the air around by altitude", "[reference]") {
    // HVAC Design Guide, Table 6a (6000 and 8000 ft); ISA formula for 5000 ft: psia.
    CHECK(ambient_psia(5000) == Approx(12.23).epsilon(0.001));
    CHECK(ambient_psia(6000) == Approx(11.78).epsilon(0.001));
    CHECK(ambient_psia(8000) == Approx(10.92).epsilon(0.001));
    // piping-tools.net "Air receivers": 0.76 bar at 2400 m.
    AirPlant plant;
    plant.altitude_m = 2400;
    CHECK(ambient_kpa(plant) == Approx(76).epsilon(0.005));
    plant.altitude_m.reset();
    CHECK(ambient_kpa(plant) == 101.325);  // ISO 2533 at sea level
}
