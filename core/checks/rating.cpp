// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "rating";

Finding too_high(const Actuator& actuator, double kpa, double rated, bool regulated, UnitSystem units) {
    Finding finding{name, regulated ? Severity::stop : Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.actuator = actuator.id;
    finding.place.field = "cylinder.rating_kpa_gauge";
    finding.what = regulated ? "The regulator is set above what " + quoted(actuator.name) + " is rated for"
                             : "Should the regulator fail, " + quoted(actuator.name) +
                                   " gets more pressure than it is rated for";
    set_pressures(finding, kpa, "at most", rated, units);
    const std::string most = print_quantity(Quantity::gauge_pressure, rated, units);
    finding.remedy = regulated ? "Set the regulator to " + most + " or less"
                               : "Fit a relief valve at " + most + ", or parts rated for cut-out";
    return finding;
}

}  // namespace

std::vector<Finding> check_rating(const CheckInput& input) {
    std::vector<Finding> findings;
    const AirPlant& plant = input.show.rig.air_plant;
    for_each_moved(input, [&](const Actuator& actuator) {
        const Figure& rated = actuator.cylinder.rating_kpa_gauge;
        if (!rated) {
            Place place;
            place.actuator = actuator.id;
            place.field = "cylinder.rating_kpa_gauge";
            findings.push_back(not_checked(name, "pressure rating of " + quoted(actuator.name), place));
        } else if (plant.regulator_kpa_gauge && *plant.regulator_kpa_gauge > *rated) {
            findings.push_back(too_high(actuator, *plant.regulator_kpa_gauge, *rated, true, input.units));
        } else if (plant.cut_out_kpa_gauge && *plant.cut_out_kpa_gauge > *rated) {
            findings.push_back(too_high(actuator, *plant.cut_out_kpa_gauge, *rated, false, input.units));
        }
    });
    return findings;
}

}  // namespace gasp
