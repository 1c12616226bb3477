// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/air_model.hpp"
#include "core/air/run/travel.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "failure";

/// What the figure does with no air in the cylinder: by its weight, spring and counterweight, against what
/// sticks, at either end of the way.
struct Limp {
    bool out_falls_back = false;  ///< from out
    bool in_falls_out = false;    ///< from rest
};

Limp limp(const ActuatorModel& model) {
    const auto pull_back = [&](double travel) {
        return model.mass * standard_gravity * model.mechanism.at(travel).height_slope + model.spring_force +
               model.spring_rate * travel;
    };
    return {pull_back(model.stroke) > model.static_friction, pull_back(0.0) < -model.static_friction};
}

/// Where the valve sends it with no power: by the kind of valve.
std::string without_power(const Actuator& actuator, const Limp& limp, bool rests_out) {
    if (actuator.valve.kind == ValveKind::five_two_two_coils) {
        return "without power it stays where it was sent last, still under air";
    }
    // A coil that has power while the show rests lets go as well: the valve's spring knows no contacts.
    const std::string end = rests_out ? "back, away from where it rests," : "back";
    if (actuator.valve.kind == ValveKind::three_two ||
        actuator.cylinder.action != CylinderAction::double_acting) {
        const bool returns =
            actuator.cylinder.action == CylinderAction::single_spring_return || limp.out_falls_back;
        return returns ? "without power it goes " + end + " as the air leaves"
                       : "without power the air leaves and it stays up";
    }
    return "without power it is driven " + end + " by air";
}

std::string without_air(const Limp& limp) {
    if (limp.out_falls_back && limp.in_falls_out) {
        return "without air it drops towards the middle";
    }
    if (limp.out_falls_back) {
        return "without air it drops back if it is out";
    }
    return limp.in_falls_out ? "without air it drops out if it is back" : "without air it stays where it is";
}

}  // namespace

std::vector<Finding> check_failure(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_moved(input, [&](const Actuator& actuator) {
        const ActuatorModel* model = input.model.find(actuator.id);
        if (model == nullptr) {
            return;  // the blank fields are told of by "simulated"
        }
        const Limp state = limp(*model);
        Finding finding{name, Severity::note, false, {}, {}, {}, {}, {}};
        finding.place.actuator = actuator.id;
        finding.what = quoted(actuator.name) + ": " +
                       without_power(actuator, state, rests_out(input.show, actuator)) + "; " +
                       without_air(state);
        finding.remedy =
            "Try both with nobody in reach, and keep people out of what it sweeps; stopping and "
            "holding it is the business of hardware, by the local code";
        findings.push_back(std::move(finding));
    });
    return findings;
}

}  // namespace gasp
