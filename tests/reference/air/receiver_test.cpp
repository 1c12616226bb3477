// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/run/receiver_line.hpp"
#include "tests/reference/air/rig.hpp"
#include "tests/support/catch.hpp"

#include <optional>

using namespace gasp;
using namespace gasp::reference;

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
    std::optional<double> compressor_cfm;
    double over_min;
};

/// 100 psi and the like between the switch's two pressures; no compressor where none is given.
PlantModel plant_of(const Draw& draw) {
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant = plant_at("80 psi");
    plant.receiver_l = draw.receiver_gal * litres_in_gallon;
    plant.cut_in_kpa_gauge = draw.from_psi * 6.894757293168;
    plant.cut_out_kpa_gauge = 4000.0;
    if (draw.compressor_cfm) {
        plant.delivery_l_min = *draw.compressor_cfm * litres_in_cubic_foot;
    }
    return air_model(show).plant;
}

/// The pressure at the end, psi gauge, of an even draw.
double left_psi(const Draw& draw) {
    const PlantModel plant = plant_of(draw);
    const double kg = draw.scf * litres_in_scf * 1e-3 * reference_density;
    const double over_s = draw.over_min * 60.0;
    const double start = plant.ambient_pressure + draw.from_psi * 6894.757293168;
    const ReceiverLine line = receiver_line(plant, start, {{0.0, kg / over_s}}, over_s);
    return psi(line.kpa.points.back().value);
}

double ambient_psia(double feet) {
    AirPlant plant;
    plant.altitude_m = feet * 0.3048;
    return psi(ambient_kpa(plant));
}

}  // namespace

TEST_CASE("a receiver feeding 20 scfm for 6 minutes, without and with a compressor", "[reference]") {
    // A. Esposito, Fluid Power with Applications, example 13-7: 660 gal fall from 100 to 80 psi; with 5 scfm
    // from the compressor 495 gal do.
    CHECK(100 - left_psi({660, 100, 120, {}, 6}) == Approx(20).epsilon(0.005));
    CHECK(100 - left_psi({495, 100, 120, 5, 6}) == Approx(20).epsilon(0.005));
}

TEST_CASE("usable air of a receiver", "[reference]") {
    // Oak Ridge National Laboratory, AMO-Tools-Suite, CompressedAir.unit.cpp: usable capacity. The suite
    // takes 7.48 gallons to the cubic foot (exactly 7.4805), hence 0.02 %.
    constexpr double tolerance = 0.0002;
    CHECK(110 - left_psi({660, 110, 60.024, {}, 1}) == Approx(10).epsilon(tolerance));
    CHECK(110 - left_psi({760, 110, 69.11856, {}, 1}) == Approx(10).epsilon(tolerance));
    CHECK(150 - left_psi({760, 150, 345.59278, {}, 1}) == Approx(50).epsilon(tolerance));
    CHECK(150 - left_psi({760, 150, 138.23711, {}, 1}) == Approx(20).epsilon(tolerance));
}

TEST_CASE("a surge of 350 cfm against 250 cfm of compressor for 5 minutes", "[reference]") {
    // A. Srivastava, air receiver sizing sheet: 1374.5 gal fall from 100 to 60 psi.
    CHECK(100 - left_psi({1374.5, 100, 350 * 5, 250, 5}) == Approx(40).epsilon(0.01));
}

TEST_CASE("pumping up 100 gal to 120 psi with 15 cfm", "[reference]") {
    // accurateair.com pump-up test formula, V (Pmax/Patm) / t: 7.3 min.
    Show show = empty_show();
    AirPlant& plant = show.rig.air_plant;
    plant = plant_at("80 psi");
    plant.receiver_l = 100 * litres_in_gallon;
    plant.cut_in_kpa_gauge = gauge("100 psi");
    plant.cut_out_kpa_gauge = gauge("120 psi");
    plant.delivery_l_min = 15 * litres_in_cubic_foot;
    const auto filled = [&] {
        const PlantModel model = air_model(show).plant;
        return receiver_line(model, model.ambient_pressure, {}, 20 * 60.0);
    };
    const ReceiverLine filling = filled();
    CHECK(filling.compressor_on_s / 60.0 == Approx(7.28).epsilon(0.01));
    CHECK(filling.kpa.points.back().value == Approx(gauge("120 psi")));
    // At 5000 ft the same compressor gives 0.832 of its air: density ratio of the ISA.
    plant.altitude_m = 5000 * 0.3048;
    CHECK(filling.compressor_on_s / filled().compressor_on_s == Approx(0.832).epsilon(0.002));
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
