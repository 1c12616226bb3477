// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace gasp {
namespace {

constexpr std::string_view name = "starved";
/// A stroke is weakened when it takes longer than with all the air it can use by both: assumptions of ours.
constexpr double longer_by_share = 0.1;
constexpr double longer_by_s = 0.02;
/// What another drew this long before still lacks in the receiver.
constexpr double before_s = 2.0;

/// The other actuator that drew most from the receiver while the stroke went on or right before; null where
/// none did.
const Actuator* who(const CheckInput& input, const Stroke& starved, double took_s) {
    std::map<ActuatorId, double> drawn;
    for (const Stroke& other : input.run.air.run->strokes) {
        const double at = to_s(other.command.time - starved.command.time);
        if (other.command.actuator != starved.command.actuator && at > -before_s && at < took_s) {
            drawn[other.command.actuator] += other.left_receiver_l;
        }
    }
    const auto most = std::ranges::max_element(drawn, {}, [](const auto& one) { return one.second; });
    return most != drawn.end() && most->second > 0.0 ? find(input.show, most->first) : nullptr;
}

/// The least shifts that keep the pressure up, where cues have freedom for them.
std::string remedy(const CheckInput& input, const Actuator& actuator) {
    const auto& stagger = input.facts.stagger;
    if (!stagger || !*stagger) {
        return "Move one of them away from the other, or fit a reservoir beside " + quoted(actuator.name);
    }
    std::string shifts;
    for (const Stagger::Shift& shift : (*stagger)->shifts) {
        const Cue* cue = find(input.sequence, shift.cue);
        shifts += (shifts.empty() ? "Move " : ", ") + (cue != nullptr ? named(*cue) : std::string("a cue")) +
                  " " + print_duration(std::chrono::abs(shift.by)) +
                  (shift.by > Micros{0} ? " later" : " earlier");
    }
    return shifts;
}

}  // namespace

std::vector<Finding> check_starved(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_stroke(input, [&](const Stroke& stroke, const StrokeBand& band, const Actuator& actuator) {
        const auto alone = input.facts.alone.find({actuator.id, stroke.command.way});
        const Figure& set = input.show.rig.air_plant.regulator_kpa_gauge;
        if (alone == input.facts.alone.end() || !alone->second.strike_s || !set ||
            stroke.lowest_receiver_kpa >= *set || stroke.end == StrokeEnd::turned) {
            return;
        }
        const double took = stroke.strike_s().value_or(std::numeric_limits<double>::infinity());
        const double most =
            *alone->second.strike_s + std::max(longer_by_share * *alone->second.strike_s, longer_by_s);
        const Actuator* other = took > most ? who(input, stroke, std::min(took, before_s)) : nullptr;
        if (other == nullptr) {
            return;
        }
        Finding finding = about_stroke(input, stroke, name, Severity::warn);
        finding.what = quoted(other->name) + " starves " + quoted(actuator.name) +
                       ": both draw on the receiver at once, and it strikes late or not at all";
        finding.figure = std::isfinite(took) ? times(*band.strike_s(), band.measured) : "no strike";
        finding.limit = "at most " + print_duration(from_ms(std::round(most * 1e3)));
        finding.remedy = remedy(input, actuator);
        findings.push_back(std::move(finding));
    });
    return findings;
}

}  // namespace gasp
