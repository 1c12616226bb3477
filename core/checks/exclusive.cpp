// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/exclusive.hpp"

#include "core/checks/all_checks.hpp"
#include "core/checks/words_of_cues.hpp"

#include <algorithm>
#include <unordered_map>

namespace gasp {
namespace {

bool excludes(const Channel& a, const Channel& b) {
    const bool named = std::find(a.excludes.begin(), a.excludes.end(), b.id) != a.excludes.end() ||
                       std::find(b.excludes.begin(), b.excludes.end(), a.id) != b.excludes.end();
    const bool two_coils = a.kind == ChannelKind::valve && b.kind == ChannelKind::valve && a.actuator &&
                           a.actuator == b.actuator && a.coil != b.coil;
    return named || two_coils;
}

}  // namespace

std::vector<std::vector<std::size_t>> exclusive_places(const Rig& rig) {
    std::unordered_map<ChannelId, std::size_t> place_of;
    std::unordered_map<ActuatorId, std::vector<std::size_t>> coils;
    for (std::size_t place = 0; place < rig.channels.size(); ++place) {
        place_of.insert({rig.channels[place].id, place});
        if (rig.channels[place].actuator) {
            coils[*rig.channels[place].actuator].push_back(place);
        }
    }
    std::vector<std::vector<std::size_t>> places(rig.channels.size());
    const auto pair = [&](std::size_t a, std::size_t b) {
        if (a != b && excludes(rig.channels[a], rig.channels[b])) {
            places[a].push_back(b);
            places[b].push_back(a);
        }
    };
    for (std::size_t place = 0; place < rig.channels.size(); ++place) {
        for (const ChannelId other : rig.channels[place].excludes) {
            if (const auto found = place_of.find(other); found != place_of.end()) {
                pair(place, found->second);
            }
        }
    }
    for (const auto& [actuator, at] : coils) {
        for (std::size_t i = 0; i < at.size(); ++i) {
            for (std::size_t j = i + 1; j < at.size(); ++j) {
                pair(at[i], at[j]);
            }
        }
    }
    for (std::vector<std::size_t>& others : places) {
        std::sort(others.begin(), others.end());
        others.erase(std::unique(others.begin(), others.end()), others.end());
    }
    return places;
}

void find_both_powered(const PoweredChannel& a, const PoweredChannel& b, std::vector<CueFault>& faults) {
    auto in_a = a.stretches.begin();
    auto in_b = b.stretches.begin();
    while (in_a != a.stretches.end() && in_b != b.stretches.end()) {
        const Micros begin = std::max(in_a->dwell.begin, in_b->dwell.begin);
        const Micros end = std::min(in_a->dwell.end, in_b->dwell.end);
        if (begin < end) {
            faults.push_back({CueFaultKind::exclusive, a.channel, b.channel, in_a->first, in_b->first, begin,
                              end - begin, Micros{0}, false});
        }
        if (in_a->dwell.end < in_b->dwell.end) {
            ++in_a;
        } else {
            ++in_b;
        }
    }
}

Finding word_exclusive(const Show& show, const Sequence& sequence, const CueFault& fault) {
    Finding finding = about(sequence, fault, "exclusive", Severity::stop);
    const Channel* a = find(show, fault.channel);
    const Channel* b = find(show, fault.other_channel);
    finding.what = "Channels " + quoted(a->name) + " and " + quoted(b->name) + " have power at once" +
                   (a->actuator && a->actuator == b->actuator ? ", and are the two coils of one valve" : "");
    finding.figure = print_duration(fault.figure);
    finding.limit = "never together";
    const Cue* cue = find(sequence, fault.cue);
    const Cue* other = find(sequence, fault.other_cue);
    const bool both_open = a->contact == Contact::normally_open && b->contact == Contact::normally_open;
    if (both_open && cue != nullptr && other != nullptr) {
        const Cue& later = start_of(sequence, *cue) > start_of(sequence, *other) ? *cue : *other;
        finding.remedy = "Start " + named(later) + " " + print_duration(fault.figure) + " later";
    } else {
        finding.remedy = "Wire both to the NO contact, so that neither has power at rest";
    }
    return finding;
}

std::vector<Finding> check_exclusive(const CheckInput& input) {
    return worded(input, [](CueFaultKind kind) { return kind == CueFaultKind::exclusive; });
}

}  // namespace gasp
