// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

namespace gasp {

std::vector<Finding> check_rest_state(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const Channel& channel : input.show.rig.channels) {
        if (channel.kind != ChannelKind::valve || channel.contact != Contact::normally_closed) {
            continue;
        }
        const bool out = channel.coil == Coil::out;
        Finding finding{"rest_state", out ? Severity::stop : Severity::warn, false, {}, {}, {}, {}, {}};
        finding.place.channel = channel.id;
        finding.place.actuator = channel.actuator;
        finding.place.field = "contact";
        finding.what = "Channel " + quoted(channel.name) + " gives its valve power while the show rests" +
                       (out ? ", so the figure stands out and moves when the power goes" : "");
        finding.figure = "contact NC";
        finding.limit = "NO on a valve";
        finding.remedy = "Wire the valve to the NO contact";
        findings.push_back(std::move(finding));
    }
    return findings;
}

}  // namespace gasp
