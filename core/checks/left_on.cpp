// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

#include <unordered_map>

namespace gasp {

std::vector<Finding> check_left_on(const CheckInput& input) {
    // The last one of each channel that reaches the end.
    std::unordered_map<ChannelId, const Cue*> reaching;
    for (const Cue& cue : input.sequence.cues) {
        const Micros start = start_of(input.sequence, cue);
        if (start < input.sequence.length && start + cue.length >= input.sequence.length) {
            reaching[cue.channel] = &cue;
        }
    }
    std::vector<Finding> findings;
    for_each_used(input, [&](const Channel& channel) {
        const auto found = reaching.find(channel.id);
        if (found == reaching.end()) {
            return;
        }
        const Cue& cue = *found->second;
        const bool valve = channel.kind == ChannelKind::valve;
        Finding finding{"left_on", valve ? Severity::stop : Severity::warn, false, {}, {}, {}, {}, {}};
        finding.place.sequence = input.sequence.id;
        finding.place.time = input.sequence.length;
        finding.place.cue = cue.id;
        finding.place.channel = channel.id;
        finding.what = capital(named(cue)) + " leaves channel " + quoted(channel.name) +
                       " driven until the sequence ends and cuts it off";
        finding.figure = "ends at " + print_time(start_of(input.sequence, cue) + cue.length);
        finding.limit = "before " + print_time(input.sequence.length);
        const Micros over = start_of(input.sequence, cue) + cue.length - input.sequence.length;
        const Micros tick = tick_of(input.show, channel);
        finding.remedy = "Lengthen the sequence by " + print_duration(over + tick);
        findings.push_back(std::move(finding));
    });
    return findings;
}

}  // namespace gasp
