// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/all_checks.hpp"
#include "core/checks/circuits.hpp"
#include "core/checks/flash_count.hpp"
#include "core/checks/wording.hpp"
#include "core/power/contact.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <span>
#include <unordered_map>

namespace gasp {
namespace {

constexpr std::string_view name = "flashes";
constexpr std::size_t most_findings = 50;

bool lights(const Channel& channel) {
    const LoadKind load = load_kind(channel);
    return channel.kind == ChannelKind::lamp || load == LoadKind::lamp || load == LoadKind::led;
}

std::vector<LightChange> light_changes(const CheckInput& input) {
    std::unordered_map<ChannelId, std::uint32_t> lamps;
    const auto& channels = input.show.rig.channels;
    for (std::uint32_t place = 0; place < channels.size(); ++place) {
        if (lights(channels[place]) && used(input, place)) {
            lamps.insert({channels[place].id, place});
        }
    }
    std::vector<LightChange> changes;
    if (lamps.empty()) {
        return changes;
    }
    for (const SwitchEvent& event : input.schedule.events) {
        if (const auto lamp = lamps.find(event.channel); lamp != lamps.end()) {
            changes.push_back(
                {event.time, lamp->second, load_on(channels[lamp->second].contact, event.driven)});
        }
    }
    return changes;
}

/// The flashing cue of a channel that is on at a moment.
std::optional<CueId> cue_at(const Sequence& sequence, ChannelId channel, Micros time) {
    for (const Cue& cue : sequence.cues) {
        const Micros start = start_of(sequence, cue);
        if (cue.channel == channel && cue.flashes && start <= time && time < start + cue.length) {
            return cue.id;
        }
    }
    return std::nullopt;
}

/// The lamps of a burst that flash too fast even alone.
std::vector<std::string> too_fast_alone(const CheckInput& input, const FlashBurst& burst,
                                        std::span<const LightChange> changes) {
    std::map<std::uint32_t, std::vector<LightChange>> by_lamp;
    for (auto change = std::ranges::lower_bound(changes, burst.begin, {}, &LightChange::time);
         change != changes.end() && change->time <= burst.end; ++change) {
        by_lamp[change->lamp].push_back(*change);
    }
    std::vector<std::string> names;
    for (const auto& [lamp, own] : by_lamp) {
        if (!flash_bursts(own).empty()) {
            names.push_back(quoted(input.show.rig.channels[lamp].name));
        }
    }
    return names;
}

Finding word(const CheckInput& input, const FlashBurst& burst, std::span<const LightChange> changes) {
    std::vector<std::string> names;
    for (const std::uint32_t lamp : burst.lamps) {
        names.push_back(quoted(input.show.rig.channels[lamp].name));
    }
    const Channel& first = input.show.rig.channels[burst.lamps.front()];
    Finding finding{name, Severity::warn, false, {}, {}, {}, {}, {}};
    set_moment(finding, input, burst.begin);
    finding.place.channel = first.id;
    const bool alone = names.size() == 1;
    if (alone) {
        finding.place.cue = cue_at(input.sequence, first.id, burst.begin + seen_as_one);
    }
    finding.what = (alone ? "Lamp " + names[0] + " flashes" : "Lamps " + listed(names) + " together flash") +
                   " faster than is borne by people whom flashing light harms";
    finding.figure = std::to_string(burst.flashes) + " flashes in a second, until " + print_time(burst.end);
    finding.limit = "at most 3 in any one second";
    if (alone) {
        finding.remedy =
            "Let it flash at 3 Hz or less, or put up the notice of flashing light at the entrance";
    } else if (const auto fast = too_fast_alone(input, burst, changes); !fast.empty()) {
        finding.remedy = "Let " + listed(fast) +
                         " flash at 3 Hz or less, or put up the notice of flashing light at the entrance";
    } else {
        finding.remedy =
            "Let them flash at the same moments, or apart from each other; lamps never seen "
            "together do not add up";
    }
    return finding;
}

}  // namespace

// WCAG 2.2, success criterion 2.3.1: three general flashes in any one second, which is also the least of the
// limits for lamps seen together.
std::vector<Finding> check_flashes(const CheckInput& input) {
    std::vector<Finding> findings;
    const std::vector<LightChange> changes = light_changes(input);
    for (const FlashBurst& burst : flash_bursts(changes)) {
        if (findings.size() == most_findings) {
            break;
        }
        findings.push_back(word(input, burst, changes));
    }
    return findings;
}

}  // namespace gasp
