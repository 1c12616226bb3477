// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/model_figures.hpp"

#include <algorithm>
#include <cmath>

namespace gasp {
namespace {

using Q = Quantity;
namespace blank = taken_where_blank;

void set_compressor(PlantModel& plant, const AirPlant& rig, ModelFigures& figures) {
    const bool whole = rig.cut_in_kpa_gauge && rig.cut_out_kpa_gauge && rig.delivery_l_min;
    if (!whole) {
        figures.or_else(Q::number, std::nullopt, 0.0, "none: nothing refills the receiver",
                        !rig.delivery_l_min     ? "air_plant.delivery_l_min"
                        : !rig.cut_in_kpa_gauge ? "air_plant.cut_in_kpa_gauge"
                                                : "air_plant.cut_out_kpa_gauge",
                        "compressor");
        return;
    }
    plant.cut_in = plant.ambient_pressure + si(Q::gauge_pressure, *rig.cut_in_kpa_gauge);
    plant.cut_out = plant.ambient_pressure + si(Q::gauge_pressure, *rig.cut_out_kpa_gauge);
    if (!(plant.cut_in < plant.cut_out)) {
        figures.refuse({"the compressor cuts out at or below its cut-in", "air_plant.cut_out_kpa_gauge",
                        "Set cut-out above cut-in"});
    }
    // ISO 1217: the delivery is the volume taken in, at the air around.
    const double density = plant.ambient_pressure / (gas_constant * plant.ambient_temperature);
    plant.delivery = si(Q::free_air_flow, *rig.delivery_l_min) * density;
    if (rig.delivery_at_kpa_gauge && rig.second_delivery_l_min && rig.second_delivery_at_kpa_gauge) {
        const double first = si(Q::gauge_pressure, *rig.delivery_at_kpa_gauge) + plant.ambient_pressure;
        const double second =
            si(Q::gauge_pressure, *rig.second_delivery_at_kpa_gauge) + plant.ambient_pressure;
        if (std::abs(second - first) < 1.0) {
            figures.refuse({"the two deliveries are stated at one pressure",
                            "air_plant.second_delivery_at_kpa_gauge", "State them at two pressures"});
            return;
        }
        const double other = si(Q::free_air_flow, *rig.second_delivery_l_min) * density;
        plant.delivery_slope = (other - plant.delivery) / (second - first);
        plant.delivery -= plant.delivery_slope * first;
    }
}

void set_leak(PlantModel& plant, const AirPlant& rig, ModelFigures& figures) {
    if (rig.leak_c_l_s_bar) {
        plant.leak.c = si(Q::conductance, *rig.leak_c_l_s_bar);
    } else if (rig.leak_from_kpa_gauge && rig.leak_to_kpa_gauge && rig.leak_s && rig.receiver_l) {
        const double from = *rig.leak_from_kpa_gauge;
        const double to = *rig.leak_to_kpa_gauge;
        if (!(from > to)) {
            figures.refuse({"the timed fall of pressure ends above its start", "air_plant.leak_to_kpa_gauge",
                            "Enter the lower pressure there"});
            return;
        }
        plant.leak = of_leak(plant.receiver, plant.ambient_temperature, plant.ambient_pressure,
                             plant.ambient_pressure + si(Q::gauge_pressure, from),
                             plant.ambient_pressure + si(Q::gauge_pressure, std::max(to, 0.1)), *rig.leak_s,
                             blank::critical_ratio);
    }
}

}  // namespace

bool set_plant(AirModel& model, const AirPlant& rig) {
    ModelFigures figures(model, nullptr);
    figures.check(rig, "air_plant");
    if (!figures.whole()) {
        return false;
    }
    PlantModel& plant = model.plant;
    plant.ambient_pressure = si(Q::gauge_pressure, ambient_kpa(rig));
    figures.or_else(Q::length, rig.altitude_m, 0.0, "sea level", "air_plant.altitude_m", "altitude");
    plant.ambient_temperature = figures.or_else(
        Q::temperature, rig.temperature_c, si(Q::temperature, blank::temperature_c),
        fmt::format("{} \u00b0C", blank::temperature_c), "air_plant.temperature_c", "air temperature");
    plant.set_pressure =
        plant.ambient_pressure + figures.need(Q::gauge_pressure, rig.regulator_kpa_gauge,
                                              "air_plant.regulator_kpa_gauge", "regulator setting");
    plant.receiver = figures.or_else(Q::volume, rig.receiver_l, std::numeric_limits<double>::infinity(),
                                     "without limit", "air_plant.receiver_l", "receiver");
    if (rig.receiver_l) {
        set_compressor(plant, rig, figures);
        set_leak(plant, rig, figures);
    }
    return figures.whole();
}

}  // namespace gasp
