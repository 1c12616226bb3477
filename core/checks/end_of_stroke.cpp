// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"
#include "core/units/quantity.hpp"

#include <set>

namespace gasp {
namespace {

constexpr std::string_view name = "end_of_stroke";

/// Speed or energy of one stroke at its stop, against what the maker allows.
void hold_against(const CheckInput& input, const Stroke& stroke, const StrokeBand& band,
                  const Actuator& actuator, std::vector<Finding>& findings) {
    const auto above = [&](const Band& figure, const Figure& rated, Quantity quantity, const char* what,
                           const char* field) {
        if (!rated || figure.high <= *rated) {
            return;
        }
        Finding finding =
            about_stroke(input, stroke, name, figure.nominal > *rated ? Severity::stop : Severity::warn);
        finding.place.field = field;
        finding.what = quoted(actuator.name) +
                       (figure.nominal > *rated ? " meets its stop " : " may meet its stop ") +
                       (stroke.command.way == Coil::out ? "out " : "back ") + what;
        finding.figure = banded(quantity, figure, band.measured, input.units);
        finding.limit = "at most " + print_quantity(quantity, *rated, input.units);
        finding.remedy = "Close the flow control that meters the air out";
        findings.push_back(std::move(finding));
    };
    above(band.end_speed_m_s, actuator.cylinder.rated_speed_m_s, Quantity::speed,
          "faster than it is rated for", "cylinder.rated_speed_m_s");
    above(band.end_energy_j, actuator.cylinder.rated_energy_j, Quantity::energy,
          "with more energy than it is rated for", "cylinder.rated_energy_j");
}

}  // namespace

std::vector<Finding> check_end_of_stroke(const CheckInput& input) {
    std::vector<Finding> findings;
    std::set<std::pair<ActuatorId, Coil>> said;  // one stroke of a kind tells of all of them
    for_each_stroke(input, [&](const Stroke& stroke, const StrokeBand& band, const Actuator& actuator) {
        const Cylinder& cylinder = actuator.cylinder;
        if (!cylinder.rated_speed_m_s && !cylinder.rated_energy_j) {
            if (said.insert({actuator.id, Coil::out}).second) {
                Place place;
                place.actuator = actuator.id;
                place.field = "cylinder.rated_speed_m_s";
                findings.push_back(
                    not_checked(name, "rated speed or energy of " + quoted(actuator.name), place));
            }
            return;
        }
        const std::size_t before = findings.size();
        if (!said.contains({actuator.id, stroke.command.way})) {
            hold_against(input, stroke, band, actuator, findings);
        }
        if (findings.size() > before) {
            said.insert({actuator.id, stroke.command.way});
        }
    });
    return findings;
}

}  // namespace gasp
