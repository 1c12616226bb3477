// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/words_of_cues.hpp"

#include <iterator>

namespace gasp {
namespace {

bool of_valve(CueFaultKind kind) {
    return kind == CueFaultKind::valve_on || kind == CueFaultKind::valve_off;
}

void note_blank(const Actuator& actuator, const Figure& figure, std::string_view field,
                std::string_view label, std::vector<Finding>& findings) {
    if (!figure) {
        Place place;
        place.actuator = actuator.id;
        place.field = field;
        findings.push_back(
            not_checked("valve_dwell", std::string(label) + " of valve " + quoted(actuator.name), place));
    }
}

}  // namespace

Finding word_valve_dwell(const Show& show, const Sequence& sequence, const CueFault& fault) {
    Finding finding = about(sequence, fault, "valve_dwell", Severity::stop);
    const Channel& channel = *find(show, fault.channel);
    const Actuator& actuator = *find(show, *channel.actuator);
    finding.place.actuator = actuator.id;
    word_short_dwell(sequence, fault, "valve " + quoted(actuator.name), fault.kind == CueFaultKind::valve_on,
                     finding);
    return finding;
}

std::vector<Finding> check_valve_dwell(const CheckInput& input) {
    std::vector<Finding> findings = worded(input, of_valve);
    for_each_moved(input, [&](const Actuator& actuator) {
        const Valve& valve = actuator.valve;
        note_blank(actuator, valve.shortest_on_ms, "valve.shortest_on_ms", "shortest dwell", findings);
        note_blank(actuator, valve.shortest_off_ms, "valve.shortest_off_ms", "shortest rest", findings);
    });
    return findings;
}

}  // namespace gasp
