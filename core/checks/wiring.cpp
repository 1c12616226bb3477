// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/wording.hpp"

namespace gasp {
namespace {

Finding about(const Actuator& actuator, Severity severity, std::string what, std::string remedy) {
    Finding finding{"wiring", severity, false, {}, std::move(what), {}, {}, std::move(remedy)};
    finding.place.actuator = actuator.id;
    return finding;
}

void check_channels(const Show& show, const Actuator& actuator, std::vector<Finding>& findings) {
    const bool two_coils = actuator.valve.kind == ValveKind::five_two_two_coils;
    const Channel* out = channel_of(show, actuator.id, Coil::out);
    const Channel* back = channel_of(show, actuator.id, Coil::back);
    const std::string name = quoted(actuator.name);
    if (out == nullptr && back == nullptr) {
        findings.push_back(about(actuator, Severity::warn, "No channel switches the valve of " + name,
                                 "Choose " + name + " as the actuator of a valve channel"));
    } else if (two_coils && back == nullptr) {
        findings.push_back(about(actuator, Severity::stop,
                                 "The valve of " + name + " has two coils and no channel sends it back",
                                 "Add a valve channel for its second coil"));
    } else if (out == nullptr) {
        findings.push_back(about(actuator, Severity::stop, "No channel sends " + name + " out",
                                 "Add a valve channel for the coil that sends it out"));
    } else if (!two_coils && back != nullptr) {
        findings.push_back(about(
            actuator, Severity::warn,
            "Channel " + quoted(back->name) + " is to send " + name + " back, but its valve has one coil",
            "Choose a valve with two coils, or take the channel away"));
        findings.back().place.channel = back->id;
    }
}

void check_twice(const Show& show, const Channel& channel, std::vector<Finding>& findings) {
    const Channel* first = channel_of(show, *channel.actuator, channel.coil);
    const Actuator* actuator = find(show, *channel.actuator);
    if (first == nullptr || actuator == nullptr || first->id == channel.id) {
        return;
    }
    findings.push_back(about(*actuator, Severity::warn,
                             "Channels " + quoted(first->name) + " and " + quoted(channel.name) +
                                 " switch the same coil of " + quoted(actuator->name),
                             "Leave the coil to one of them"));
    findings.back().place.channel = channel.id;
}

void check_fit(const Actuator& actuator, std::vector<Finding>& findings) {
    const bool three_two = actuator.valve.kind == ValveKind::three_two;
    const bool double_acting = actuator.cylinder.action == CylinderAction::double_acting;
    if (three_two && double_acting) {
        Finding finding = about(
            actuator, Severity::stop,
            "The 3/2 valve of " + quoted(actuator.name) + " cannot drive its double-acting cylinder back",
            "Take a 5/2 valve");
        finding.place.field = "valve.kind";
        findings.push_back(std::move(finding));
    } else if (!three_two && !double_acting) {
        Finding finding = about(actuator, Severity::note,
                                "The 5/2 valve of " + quoted(actuator.name) +
                                    " has a port its single-acting cylinder does not use",
                                "Plug the second port");
        finding.place.field = "valve.kind";
        findings.push_back(std::move(finding));
    }
}

}  // namespace

std::vector<Finding> check_wiring(const CheckInput& input) {
    std::vector<Finding> findings;
    for (const Actuator& actuator : input.show.rig.actuators) {
        check_channels(input.show, actuator, findings);
        check_fit(actuator, findings);
    }
    for (const Channel& channel : input.show.rig.channels) {
        if (channel.kind == ChannelKind::valve && channel.actuator) {
            check_twice(input.show, channel, findings);
        }
    }
    for_each_used(input, [&](const Channel& channel) {
        if (channel.kind == ChannelKind::valve && !channel.actuator) {
            Finding finding{"wiring", Severity::warn, false, {}, {}, {}, {}, {}};
            finding.place.channel = channel.id;
            finding.place.field = "actuator";
            finding.what = "Valve channel " + quoted(channel.name) + " moves no actuator";
            finding.remedy = "Choose the actuator whose valve it switches";
            findings.push_back(std::move(finding));
        }
    });
    return findings;
}

}  // namespace gasp
