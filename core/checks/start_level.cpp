// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

Finding about(const Channel& channel) {
    const bool valve = channel.kind == ChannelKind::valve;
    Finding finding{"start_level", valve ? Severity::stop : Severity::warn, false, {}, {}, {}, {}, {}};
    finding.place.channel = channel.id;
    finding.place.actuator = channel.actuator;
    finding.place.field = "start_level";
    finding.limit = "stays at rest";
    return finding;
}

}  // namespace

std::vector<Finding> check_start_level(const CheckInput& input) {
    std::vector<Finding> findings;
    for_each_used(input, [&](const Channel& channel) {
        if (channel.start_level == StartLevel::unknown) {
            Finding finding = about(channel);
            finding.what =
                "What channel " + quoted(channel.name) + " does while its board starts is not known";
            finding.figure = "not known";
            finding.remedy = "Watch the output through a power-up with the air off, and enter what it does";
            findings.push_back(std::move(finding));
        } else if (channel.start_level == StartLevel::driven) {
            Finding finding = about(channel);
            finding.what = "Channel " + quoted(channel.name) + " is driven while its board starts";
            finding.figure = "driven";
            finding.remedy = "Hold the output at rest with a resistor, or take one that stays at rest";
            findings.push_back(std::move(finding));
        }
    });
    return findings;
}

}  // namespace gasp
