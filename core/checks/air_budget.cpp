// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/air/model/blank_field.hpp"
#include "core/air/model/force_balance.hpp"
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"
#include "core/units/rounded.hpp"

#include <algorithm>

namespace gasp {
namespace {

constexpr std::string_view name = "air_budget";

Finding not_checked(const BlankField& blank) {
    Place place;
    place.actuator = blank.actuator;
    place.field = blank.key;
    return gasp::not_checked(name, blank.label, place);
}

/// The least pressure in the receiver from each call out of an actuator until it has gone back.
struct Lowest {
    double kpa_gauge = 0.0;
    Micros at{0};
};

std::optional<Lowest> lowest_while_out(const AirRun& run, ActuatorId actuator) {
    std::optional<Lowest> lowest;
    for (const Stroke& stroke : run.strokes) {
        const double least =
            stroke.command.way == Coil::out ? stroke.lowest_receiver_kpa : stroke.receiver_at_strike_kpa;
        if (stroke.command.actuator == actuator && (!lowest || least < lowest->kpa_gauge)) {
            lowest = {least, stroke.command.time};
        }
    }
    return lowest;
}

/// What the actuator needs: to move its figure, and to shift its valve where that has a least pressure.
double needed_kpa_gauge(const Actuator& actuator, const ActuatorModel& model) {
    return std::max(least_moving_kpa_gauge(model), actuator.valve.least_kpa_gauge.value_or(0.0));
}

/// The setting that moves it: more than is needed as it is set where its friction goes with the pressure.
double enough_kpa_gauge(const CheckInput& input, const Actuator& actuator, double needed) {
    Show raised = input.show;
    Figure& set = raised.rig.air_plant.regulator_kpa_gauge;
    constexpr int tries = 20;
    for (int i = 0; i < tries && *set < needed; ++i) {
        set = rounded_up(Quantity::gauge_pressure, needed, input.units);
        const AirModel model = fitted_air_model(raised);
        const ActuatorModel* const other = model.find(actuator.id);
        needed = other != nullptr ? needed_kpa_gauge(actuator, *other) : *set;
    }
    return *set;
}

/// What its cylinder may have; where the builder has not said, 10 bar, which most cylinders and valves are
/// made for (common practice, no source).
double most_kpa_gauge(const Actuator& actuator) {
    constexpr double usual_kpa_gauge = 1000.0;
    return actuator.cylinder.rating_kpa_gauge.value_or(usual_kpa_gauge);
}

/// The setting to advise. With the load at half of what the cylinder's force could bear it moves fast: a rule
/// of cylinder makers' selection guides, from memory.
std::string set_higher(const CheckInput& input, const Actuator& actuator, double enough) {
    constexpr double fast_load_ratio = 0.5;
    const double moving = least_moving_kpa_gauge(*input.model.find(actuator.id));
    const double fast = rounded_up(Quantity::gauge_pressure, moving / fast_load_ratio, input.units);
    if (fast <= enough || fast > most_kpa_gauge(actuator)) {
        return "Set the regulator to " + print_rounded_up(Quantity::gauge_pressure, enough, input.units);
    }
    return "Set the regulator to " + print_rounded_up(Quantity::gauge_pressure, fast, input.units) +
           ": from " + print_rounded_up(Quantity::gauge_pressure, enough, input.units) + " on it just moves";
}

constexpr std::string_view beyond_pressure =
    "Take a larger bore, or lighten the load: it would need more pressure than it may have";

/// What keeps the receiver at a pressure it falls below. The fall over a run goes with the inverse of the
/// receiver's volume (isothermal, as it is simulated), and with the pressure that the strokes can use.
std::string hold_up(const AirPlant& plant, double lowest, double needed, UnitSystem units) {
    const double cut_in = *plant.cut_in_kpa_gauge;
    const double ambient = ambient_kpa(plant);
    const double fall = (cut_in - lowest) * (needed + ambient) / (std::max(lowest, 0.0) + ambient);
    const double raised = needed + fall;
    const std::string to = print_rounded_up(Quantity::gauge_pressure, raised, units);
    if (rounded_up(Quantity::gauge_pressure, raised, units) < *plant.cut_out_kpa_gauge) {
        return "Raise the cut-in to " + to;
    }
    if (cut_in > needed) {
        const double wanted_l = *plant.receiver_l * fall / (cut_in - needed);
        return "Take a receiver of " + print_rounded_up(Quantity::volume, wanted_l, units) + " or more";
    }
    return "Take a compressor that cuts in at " + to + " or above, within the rating of all it feeds";
}

Finding does_not_lift(const CheckInput& input, const Actuator& actuator, const Lowest& lowest,
                      double needed) {
    Finding finding{name, Severity::stop, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = lowest.at;
    finding.place.actuator = actuator.id;
    finding.what = "The receiver falls too low to move " + quoted(actuator.name);
    set_pressures(finding, lowest.kpa_gauge, "at least", needed, input.units);
    finding.remedy = needed > most_kpa_gauge(actuator)
                         ? std::string(beyond_pressure)
                         : hold_up(input.show.rig.air_plant, lowest.kpa_gauge, needed, input.units);
    return finding;
}

Finding set_too_low(const CheckInput& input, const Actuator& actuator, double set, double needed) {
    Finding finding{name, Severity::stop, false, {}, {}, {}, {}, {}};
    finding.place.actuator = actuator.id;
    finding.place.field = "air_plant.regulator_kpa_gauge";
    finding.what = "The regulator is set too low to move " + quoted(actuator.name);
    set_pressures(finding, set, "at least", needed, input.units);
    const double enough = enough_kpa_gauge(input, actuator, needed);
    finding.remedy = enough > most_kpa_gauge(actuator) ? std::string(beyond_pressure)
                                                       : set_higher(input, actuator, enough);
    return finding;
}

Finding below_regulator(const CheckInput& input) {
    const AirPlant& plant = input.show.rig.air_plant;
    const double set = *plant.regulator_kpa_gauge;
    Finding finding{name, Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = input.run.air.run->lowest_at;
    finding.what = "The receiver falls below the regulator, so strokes get slower";
    set_pressures(finding, input.run.air.run->lowest_receiver_kpa, "at least", set, input.units);
    finding.remedy = hold_up(plant, input.run.air.run->lowest_receiver_kpa, set, input.units);
    return finding;
}

void check_plant(const CheckInput& input, std::vector<Finding>& findings) {
    const AirPlant& plant = input.show.rig.air_plant;
    if (plant.cut_in_kpa_gauge && plant.cut_out_kpa_gauge &&
        *plant.cut_in_kpa_gauge >= *plant.cut_out_kpa_gauge) {
        Finding finding{name, Severity::stop, false, {}, {}, {}, {}, {}};
        finding.place.field = "air_plant.cut_in_kpa_gauge";
        finding.what = "The compressor starts no lower than it stops";
        set_pressures(finding, *plant.cut_in_kpa_gauge, "below", *plant.cut_out_kpa_gauge, input.units);
        finding.remedy = "Read both pressures off the gauge as the compressor starts and stops";
        findings.push_back(std::move(finding));
    }
}

void check_lifting(const CheckInput& input, const Actuator& actuator, std::vector<Finding>& findings) {
    const ActuatorModel* const model = input.model.find(actuator.id);
    if (model == nullptr) {
        return;  // the check of what is simulated tells why
    }
    const double needed = needed_kpa_gauge(actuator, *model);
    const Figure& set = input.show.rig.air_plant.regulator_kpa_gauge;
    if (set && *set < needed) {
        findings.push_back(set_too_low(input, actuator, *set, needed));
    }
    const auto& run = input.run.air.run;
    const auto lowest = run ? lowest_while_out(*run, actuator.id) : std::nullopt;
    if (lowest && lowest->kpa_gauge < needed && blanks_of_receiver(input.show.rig.air_plant).empty()) {
        findings.push_back(does_not_lift(input, actuator, *lowest, needed));
    }
}

}  // namespace

std::vector<Finding> check_air_budget(const CheckInput& input) {
    std::vector<Finding> findings;
    if (input.strokes.empty()) {
        return findings;
    }
    const AirPlant& plant = input.show.rig.air_plant;
    for (const BlankField& blank : blanks_of_receiver(plant)) {
        findings.push_back(not_checked(blank));
    }
    check_plant(input, findings);
    for_each_moved(input, [&](const Actuator& actuator) { check_lifting(input, actuator, findings); });
    if (input.run.air.run && blanks_of_receiver(plant).empty() && plant.regulator_kpa_gauge &&
        input.run.air.run->lowest_receiver_kpa < *plant.regulator_kpa_gauge) {
        findings.push_back(below_regulator(input));
    }
    return findings;
}

}  // namespace gasp
