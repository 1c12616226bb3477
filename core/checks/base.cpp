// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/base_load.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"
#include "core/units/rounded.hpp"

#include <cmath>
#include <map>

namespace gasp {
namespace {

constexpr std::string_view name = "base";

Finding tips(const CheckInput& input, const Stroke& stroke, const Actuator& actuator, const BaseLoad& load,
             bool measured) {
    Finding finding = about_stroke(input, stroke, name, Severity::warn);
    finding.what = "The base of " + quoted(actuator.name) + " is not held down against its stroke " +
                   (stroke.command.way == Coil::out ? "out" : "back");
    const auto moment = [](double nm) { return std::to_string(std::llround(nm)) + " N m"; };
    finding.figure = moment(load.moment_nm) + (measured ? "" : " (not measured)");
    finding.limit = "at most " + moment(load.holding_nm) + " by its weight";
    finding.remedy = "Anchor it for " + print_rounded_up(Quantity::force, load.anchor_n, input.units) +
                     " at the far edge, or add " +
                     print_rounded_up(Quantity::mass, load.ballast_kg, input.units) +
                     " of ballast, and have it looked at by whoever the local code wants for anchoring";
    return finding;
}

}  // namespace

std::vector<Finding> check_base(const CheckInput& input) {
    std::vector<Finding> findings;
    // The worst stroke of each actuator tells.
    struct Worst {
        const Stroke* stroke = nullptr;
        double force = 0.0;
        bool measured = false;
    };
    std::map<ActuatorId, Worst> worst;
    for_each_stroke(input, [&](const Stroke& stroke, const StrokeBand& band, const Actuator& actuator) {
        Worst& one = worst[actuator.id];
        if (one.stroke == nullptr || band.peak_force_n.high > one.force) {
            one = {&stroke, band.peak_force_n.high, band.measured};
        }
    });
    for (const auto& [id, one] : worst) {
        const Actuator& actuator = *find(input.show, id);
        const auto blanks = blanks_of_base(actuator);
        for (const BlankField& blank : blanks) {
            Place place;
            place.actuator = blank.actuator;
            place.field = blank.key;
            findings.push_back(not_checked(name, blank.label, place));
        }
        const Result<BaseLoad> load = blanks.empty() ? base_load(actuator, one.force) : fail("", "", "");
        if (load && load->anchor_n > 0.0) {
            findings.push_back(tips(input, *one.stroke, actuator, *load, one.measured));
        }
    }
    return findings;
}

}  // namespace gasp
