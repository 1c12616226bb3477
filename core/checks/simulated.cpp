// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/band_wording.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

constexpr std::string_view name = "simulated";

Finding cannot_be(const CheckInput& input, const Error& error) {
    Finding finding{name, Severity::stop, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.field = error.where;
    finding.what = "The air cannot be simulated: " + error.what;
    finding.remedy = error.remedy;
    return finding;
}

}  // namespace

std::vector<Finding> check_simulated(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const BlankField& blank : input.run.air.missing) {
        Place place;
        place.actuator = blank.actuator;
        place.field = blank.key;
        findings.push_back(not_checked(name, blank.label, place));
    }
    for (const Error& error : input.run.air.impossible) {
        findings.push_back(cannot_be(input, error));
    }
    return findings;
}

}  // namespace gasp
