// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/return_time.hpp"
#include "core/checks/wording.hpp"

#include <optional>

namespace gasp {
namespace {

Finding called_too_early(const CheckInput& input, const Actuator& actuator, Micros out, Micros gap,
                         const ReturnTime& known) {
    const Micros back = known.time;
    Finding finding{"early_reversal", Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.sequence = input.sequence.id;
    finding.place.time = out;
    finding.place.actuator = actuator.id;
    if (const Channel* channel = channel_of(input.show, actuator.id, Coil::out)) {
        finding.place.channel = channel->id;
    }
    finding.what = quoted(actuator.name) + " is called out again before it is back";
    finding.figure = print_duration(gap) + " after it was sent back";
    finding.limit = at_least(back) + how_known(known);
    finding.remedy = "Start the later cue " + print_duration(back - gap) + " later";
    return finding;
}

}  // namespace

std::vector<Finding> check_early_reversal(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_moved(input, [&](const Actuator& actuator) {
        std::optional<Micros> sent_back;
        bool called_again = false;
        const auto back = return_time(input, actuator);
        std::vector<Finding> too_early;
        for (const StrokeCommand& command : input.strokes) {
            if (command.actuator != actuator.id) {
                continue;
            }
            if (command.way == Coil::back) {
                sent_back = command.time;
            } else if (sent_back) {
                called_again = true;
                const Micros gap = command.time - *sent_back;
                if (back && gap < back->time) {
                    too_early.push_back(called_too_early(input, actuator, command.time, gap, *back));
                }
                sent_back.reset();
            }
        }
        if (called_again && !back) {
            findings.push_back(no_return_time("early_reversal", actuator));
        }
        std::move(too_early.begin(), too_early.end(), std::back_inserter(findings));
    });
    return findings;
}

}  // namespace gasp
