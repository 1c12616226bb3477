// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/cue_fault.hpp"

#include "core/checks/words_of_cues.hpp"

#include <algorithm>

namespace gasp {
namespace {

std::vector<DwellLimit> given(const Figure& valve, const Figure& channel, CueFaultKind of_valve,
                              CueFaultKind of_channel) {
    std::vector<DwellLimit> limits;
    if (valve && *valve > 0.0) {
        limits.push_back({of_valve, from_ms(*valve)});
    }
    if (channel && *channel > 0.0) {
        limits.push_back({of_channel, from_ms(*channel)});
    }
    return limits;
}

std::string rate_remedy(const Flashes& flashes, bool on, Micros limit) {
    const double part = on ? flashes.duty_percent / 100.0 : 1.0 - flashes.duty_percent / 100.0;
    return "Lower its rate to " + rounded_down_hertz(part * 1e6 / static_cast<double>(limit.count()));
}

/// Whether the regular flashes of a cue, not just one cut short, have too short a part.
bool regular_part_too_short(const Cue& cue, const CueFault& fault) {
    if (!cue.flashes || fault.other_cue != CueId{}) {
        return false;
    }
    const double share = cue.flashes->duty_percent / 100.0;
    const double part = 1e6 / cue.flashes->rate_hz * (fault.resting ? 1.0 - share : share);
    return part < static_cast<double>(fault.limit.count());
}

}  // namespace

DwellLimits dwell_limits(const Show& show, const Channel& channel) {
    const Actuator* actuator =
        channel.kind == ChannelKind::valve && channel.actuator ? find(show, *channel.actuator) : nullptr;
    const Valve valve = actuator != nullptr ? actuator->valve : Valve{};
    DwellLimits limits;
    limits.driven =
        given(valve.shortest_on_ms, channel.shortest_on_ms, CueFaultKind::valve_on, CueFaultKind::channel_on);
    limits.resting = given(valve.shortest_off_ms, channel.shortest_off_ms, CueFaultKind::valve_off,
                           CueFaultKind::channel_off);
    if (channel.contact == Contact::normally_closed) {
        std::swap(limits.driven, limits.resting);
    }
    return limits;
}

ShortestOfEachCue::ShortestOfEachCue(ChannelId channel, std::span<const DwellLimit> limits, bool resting)
    : channel_(channel), limits_(limits), resting_(resting) {
    for (const DwellLimit& limit : limits) {
        longest_limit_ = std::max(longest_limit_, limit.shortest);
    }
}

void ShortestOfEachCue::note(const Dwell& stretch, CueId cue, CueId other, std::vector<CueFault>& faults) {
    const Micros length = stretch.end - stretch.begin;
    for (const DwellLimit& limit : limits_) {
        if (length >= limit.shortest) {
            continue;
        }
        std::optional<std::size_t>& last = last_[static_cast<std::size_t>(limit.kind)];
        const CueFault fault{
            limit.kind, channel_,       {},      cue, cue == other ? CueId{} : other, stretch.begin,
            length,     limit.shortest, resting_};
        if (!last || faults[*last].cue != cue) {
            last = faults.size();
            faults.push_back(fault);
        } else if (length < faults[*last].figure) {
            faults[*last] = fault;
        }
    }
}

ShortDwells::ShortDwells(ChannelId channel, const DwellLimits& limits,
                         const std::optional<OwnedDwell>& before)
    : driven_(channel, limits.driven, false),
      resting_(channel, limits.resting, true),
      rest_begin_(before ? before->dwell.end : Micros::min() / 2),
      cue_before_(before ? before->last : CueId{}) {}

Finding worded(const Show& show, const Sequence& sequence, const CueFault& fault) {
    switch (fault.kind) {
        case CueFaultKind::overlap:
            return word_overlap(show, sequence, fault);
        case CueFaultKind::valve_on:
        case CueFaultKind::valve_off:
            return word_valve_dwell(show, sequence, fault);
        case CueFaultKind::channel_on:
        case CueFaultKind::channel_off:
            return word_channel_dwell(show, sequence, fault);
        case CueFaultKind::exclusive:
            break;
    }
    return word_exclusive(show, sequence, fault);
}

Finding about(const Sequence& sequence, const CueFault& fault, std::string_view check, Severity severity) {
    Finding finding{check, severity, false, {}, {}, {}, {}, {}};
    finding.place.sequence = sequence.id;
    finding.place.time = fault.time;
    finding.place.channel = fault.channel;
    if (fault.cue != CueId{}) {
        finding.place.cue = fault.cue;
    }
    if (fault.other_cue != CueId{}) {
        finding.place.other_cue = fault.other_cue;
    }
    return finding;
}

void word_short_dwell(const Sequence& sequence, const CueFault& fault, std::string_view subject, bool powered,
                      Finding& finding) {
    const Cue& cue = *find(sequence, fault.cue);
    const std::string state = powered ? "has power" : "is without power";
    finding.figure = print_duration(fault.figure);
    finding.limit = at_least(fault.limit);
    const std::string short_by = print_duration(fault.limit - fault.figure);
    finding.what = capital(std::string(subject)) + " " + state + " too briefly " +
                   (fault.resting && fault.other_cue != CueId{} ? "before " : "in ") + named(cue);
    if (regular_part_too_short(cue, fault)) {
        finding.remedy = rate_remedy(*cue.flashes, !fault.resting, fault.limit);
    } else if (fault.resting) {
        finding.remedy = "Start " + named(cue) + " " + short_by + " later";
    } else {
        const Cue* last = find(sequence, fault.other_cue);
        finding.remedy = "Lengthen " + named(last != nullptr ? *last : cue) + " by " + short_by;
    }
}

}  // namespace gasp
