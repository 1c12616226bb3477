// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "first_stroke";

void hold_against(const Actuator& actuator, const BandedStroke& first, UnitSystem units,
                  std::vector<Finding>& findings) {
    const auto above = [&](const Band& figure, const Figure& rated, Quantity quantity, const char* what) {
        if (!rated || figure.high <= *rated) {
            return;
        }
        Finding finding{name, Severity::warn, false, {}, {}, {}, {}, {}};
        finding.place.actuator = actuator.id;
        finding.what = "The first stroke of " + quoted(actuator.name) +
                       " after the air is let on, with nothing in the cylinder to brake it, ends " + what;
        finding.figure = banded(quantity, figure, first.band.measured, units);
        finding.limit = "at most " + print_quantity(quantity, *rated, units);
        finding.remedy =
            "Let the air on slowly with nobody in reach, and fire it twice empty before anyone comes near";
        findings.push_back(std::move(finding));
    };
    above(first.band.end_speed_m_s, actuator.cylinder.rated_speed_m_s, Quantity::speed,
          "faster than it is rated for");
    above(first.band.end_energy_j, actuator.cylinder.rated_energy_j, Quantity::energy,
          "with more energy than it is rated for");
}

}  // namespace

std::vector<Finding> check_first_stroke(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const auto& [id, first] : input.facts.firsts) {
        const Actuator& actuator = *find(input.show, id);
        if (!actuator.cylinder.rated_speed_m_s && !actuator.cylinder.rated_energy_j) {
            Place place;
            place.actuator = id;
            place.field = "cylinder.rated_speed_m_s";
            findings.push_back(not_checked(name, "rated speed or energy of " + quoted(actuator.name), place));
        }
        hold_against(actuator, first, input.units, findings);
    }
    return findings;
}

}  // namespace gasp
