// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/air_model.hpp"
#include "core/air/run/travel.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/failure_words.hpp"
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

bool led_by_air_alone(const Actuator& actuator) {
    return actuator.valve.kind != ValveKind::three_two &&
           actuator.cylinder.action == CylinderAction::double_acting;
}

/// Where the valve sends it with no power: by the kind of valve.
std::string without_power(const Actuator& actuator, const Limp& limp, bool rests_out) {
    if (actuator.valve.kind == ValveKind::five_two_two_coils) {
        return "without power it stays where it was sent last, still under air";
    }
    // A coil that has power while the show rests lets go as well: the valve's spring knows no contacts.
    const std::string end = rests_out ? "back, away from where it rests," : "back";
    if (!led_by_air_alone(actuator)) {
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

/// What it does as air comes back, its coils as they rest: nothing but the exhaust brakes that stroke, and
/// that side is empty.
std::string with_air_again(const Actuator& actuator, bool rests_out) {
    if (actuator.valve.kind == ValveKind::five_two_two_coils) {
        return "as air comes back it moves to where it was sent last, with or without power, and hard: "
               "nothing "
               "brakes it";
    }
    if (rests_out) {
        return "as air comes back with the board on it is driven out, hard: nothing brakes it";
    }
    return led_by_air_alone(actuator) ? "as air comes back it is driven back, hard: nothing brakes it"
                                      : "as air comes back nothing moves until its valve is switched";
}

}  // namespace

FailureWords failure_words(const Show& show, const Actuator& actuator, const AirModel& model) {
    const ActuatorModel* simulated = model.find(actuator.id);
    const bool out = rests_out(show, actuator);
    FailureWords words;
    if (simulated != nullptr) {
        const Limp state = limp(*simulated);
        words.without_power = without_power(actuator, state, out);
        words.without_air = without_air(state);
    }
    words.with_air_again = with_air_again(actuator, out);
    return words;
}

std::vector<Finding> check_failure(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_moved(input, [&](const Actuator& actuator) {
        const FailureWords words = failure_words(input.show, actuator, input.model);
        if (words.without_power.empty()) {
            return;  // the blank fields are told of by "simulated"
        }
        Finding finding{name, Severity::note, false, {}, {}, {}, {}, {}};
        finding.place.actuator = actuator.id;
        finding.what = quoted(actuator.name) + ": " + words.without_power + "; " + words.without_air;
        finding.remedy =
            "Try both with nobody in reach, and keep people out of what it sweeps; stopping and "
            "holding it is the business of hardware, by the local code";
        findings.push_back(std::move(finding));
    });
    return findings;
}

}  // namespace gasp
