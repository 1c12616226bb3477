// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/cue_index.hpp"

#include "core/checks/exclusive.hpp"

#include <algorithm>

namespace gasp {
namespace {

bool in_order(const CueSpan& a, const CueSpan& b) {
    return a.begin != b.begin ? a.begin < b.begin : a.cue < b.cue;
}

}  // namespace

CueIndex::CueIndex(const Show& show, const Sequence& sequence)
    : all_(cue_spans(show, sequence)), lanes_(all_.channels.size()), length_(sequence.length) {
    const auto exclusive = exclusive_places(show.rig);
    for (std::size_t place = 0; place < lanes_.size(); ++place) {
        Lane& lane = lanes_[place];
        lane.contact = show.rig.channels[place].contact;
        lane.limits = dwell_limits(show, show.rig.channels[place]);
        lane.exclusive = exclusive[place];
        lane.reach.reserve(all_.channels[place].spans.size());
        Micros reach{0};
        for (const CueSpan& span : all_.channels[place].spans) {
            reach = std::max(reach, span.end);
            lane.reach.push_back(reach);
        }
    }
}

std::vector<CueFault> CueIndex::faults() const {
    std::vector<CueFault> faults;
    for (std::size_t place = 0; place < lanes_.size(); ++place) {
        append_faults(place, 0, all_.channels[place].spans.size(), false, faults);
    }
    return faults;
}

CueIndex::Recheck CueIndex::update(const std::optional<PlacedCue>& before,
                                   const std::optional<PlacedCue>& after) {
    Recheck recheck;
    const std::size_t allowance = flash_allowance(all_.flashes, all_.flashing.size());
    const bool all_flashes_shared = allowance < most_flashes;
    if (all_flashes_shared) {
        recheck.gone = faults();  // a change of one cue may change the share of every other
    }
    Recheck near;
    if (const auto place = before ? place_of(before->cue.channel) : std::nullopt) {
        if (const auto span = span_of(all_.channels[*place], *before)) {
            take_out(*place, *span, near);
        }
        note_flashes(*before, false);
    }
    if (const auto place = after ? place_of(after->cue.channel) : std::nullopt) {
        note_flashes(*after, true);
        if (const auto span = span_of(all_.channels[*place], *after)) {
            put_in(*place, *span, near);
        }
    }
    if (!all_flashes_shared && flash_allowance(all_.flashes, all_.flashing.size()) == allowance) {
        return near;
    }
    recheck.come = faults();
    return recheck;
}

std::optional<std::size_t> CueIndex::place_of(ChannelId channel) const {
    const auto found = std::find_if(all_.channels.begin(), all_.channels.end(),
                                    [&](const ChannelSpans& spans) { return spans.channel == channel; });
    if (found == all_.channels.end()) {
        return std::nullopt;
    }
    return static_cast<std::size_t>(found - all_.channels.begin());
}

bool CueIndex::begins_cluster(std::size_t place, std::size_t index) const {
    return index == 0 || lanes_[place].reach[index - 1] < all_.channels[place].spans[index].begin;
}

std::size_t CueIndex::cluster_begin(std::size_t place, std::size_t index) const {
    while (!begins_cluster(place, index)) {
        --index;
    }
    return index;
}

std::size_t CueIndex::cluster_end(std::size_t place, std::size_t index) const {
    const std::size_t count = all_.channels[place].spans.size();
    do {
        ++index;
    } while (index < count && !begins_cluster(place, index));
    return index;
}

void CueIndex::append_cluster(std::size_t place, std::size_t first, std::size_t last,
                              std::vector<OwnedDwell>& dwells) const {
    const ChannelSpans& channel = all_.channels[place];
    RoundingNotes notes;
    append_dwells(all_, channel, std::span(channel.spans).subspan(first, last - first), dwells, notes);
}

/// The last dwell of the clusters before `index`, which begins a cluster.
std::optional<OwnedDwell> CueIndex::dwell_before(std::size_t place, std::size_t index) const {
    std::vector<OwnedDwell> dwells;
    while (index > 0) {
        const std::size_t first = cluster_begin(place, index - 1);
        append_cluster(place, first, index, dwells);
        if (!dwells.empty()) {
            return dwells.back();
        }
        index = first;
    }
    return std::nullopt;
}

/// The end of the first cluster from `index` on that has a dwell; flashes may all vanish in the tick.
std::size_t CueIndex::past_next_dwell(std::size_t place, std::size_t index) const {
    std::vector<OwnedDwell> dwells;
    while (dwells.empty() && index < all_.channels[place].spans.size()) {
        const std::size_t last = cluster_end(place, index);
        append_cluster(place, index, last, dwells);
        index = last;
    }
    return index;
}

/// The dwells from the first that may end after `begin` to the first that begins at `end` or later.
CueIndex::Around CueIndex::around(std::size_t place, Micros begin, Micros end) const {
    const std::vector<CueSpan>& spans = all_.channels[place].spans;
    const std::vector<Micros>& reach = lanes_[place].reach;
    Around around;
    auto index =
        static_cast<std::size_t>(std::upper_bound(reach.begin(), reach.end(), begin) - reach.begin());
    if (index < spans.size()) {
        index = cluster_begin(place, index);
    }
    around.before = dwell_before(place, index);
    while (index < spans.size() && (around.dwells.empty() || around.dwells.back().dwell.begin < end)) {
        const std::size_t last = cluster_end(place, index);
        append_cluster(place, index, last, around.dwells);
        index = last;
    }
    around.to_the_end = index == spans.size();
    return around;
}

/// The stretches in which the load has power; a rest is owned by the cue that ends it.
std::vector<OwnedDwell> CueIndex::powered(std::size_t place, const Around& around) const {
    if (lanes_[place].contact == Contact::normally_open) {
        return around.dwells;
    }
    std::vector<OwnedDwell> rests;
    std::optional<OwnedDwell> before = around.before;
    for (const OwnedDwell& dwell : around.dwells) {
        const Micros begin = before ? before->dwell.end : Micros{0};
        if (begin < dwell.dwell.begin) {
            rests.push_back({{begin, dwell.dwell.begin}, dwell.first, dwell.first});
        }
        before = dwell;
    }
    const Micros begin = before ? before->dwell.end : Micros{0};
    if (around.to_the_end && begin < length_) {
        const CueId owner = before ? before->last : CueId{};
        rests.push_back({{begin, length_}, owner, owner});
    }
    return rests;
}

/// Faults of the clusters in [first, last), the rests before them, and what they meet on channels they
/// exclude: on those further on in the rig, or on both sides.
void CueIndex::append_faults(std::size_t place, std::size_t first, std::size_t last, bool both_sides,
                             std::vector<CueFault>& faults) const {
    const ChannelSpans& channel = all_.channels[place];
    const Lane& lane = lanes_[place];
    const bool dwells_matter =
        !lane.limits.driven.empty() || !lane.limits.resting.empty() || !lane.exclusive.empty();
    Around around;
    around.dwells.reserve(dwells_matter ? last - first : 0);
    std::size_t index = first;
    while (index < last) {
        const std::size_t end = cluster_end(place, index);
        if (end - index > 1) {
            find_overlaps(channel.channel, std::span(channel.spans).subspan(index, end - index), faults);
        }
        if (dwells_matter) {
            append_cluster(place, index, end, around.dwells);
        }
        index = end;
    }
    if (!dwells_matter) {
        return;
    }
    around.before = dwell_before(place, first);
    around.to_the_end = last == channel.spans.size();
    find_short_dwells(channel.channel, lane.limits, around.before, around.dwells, faults);
    append_exclusive(place, around, both_sides, faults);
}

void CueIndex::append_exclusive(std::size_t place, const Around& around, bool both_sides,
                                std::vector<CueFault>& faults) const {
    for (const std::size_t other : lanes_[place].exclusive) {
        if (other < place && !both_sides) {
            continue;
        }
        const std::vector<OwnedDwell> own = powered(place, around);
        if (own.empty()) {
            return;
        }
        const std::vector<OwnedDwell> others =
            powered(other, this->around(other, own.front().dwell.begin, own.back().dwell.end));
        const PoweredChannel a{all_.channels[place].channel, own};
        const PoweredChannel b{all_.channels[other].channel, others};
        find_both_powered(place < other ? a : b, place < other ? b : a, faults);
    }
}

/// Sets the reach right from the changed place on, up to where it holds already.
void CueIndex::repair_reach(std::size_t place, std::size_t changed) {
    const std::vector<CueSpan>& spans = all_.channels[place].spans;
    std::vector<Micros>& reach = lanes_[place].reach;
    for (std::size_t i = changed; i < spans.size(); ++i) {
        const Micros right = std::max(i > 0 ? reach[i - 1] : Micros{0}, spans[i].end);
        if (i > changed && reach[i] == right) {
            return;
        }
        reach[i] = right;
    }
}

void CueIndex::take_out(std::size_t place, const CueSpan& span, Recheck& recheck) {
    std::vector<CueSpan>& spans = all_.channels[place].spans;
    std::vector<Micros>& reach = lanes_[place].reach;
    const auto found = std::lower_bound(spans.begin(), spans.end(), span, in_order);
    if (found == spans.end() || *found != span) {
        return;  // it never was here
    }
    const auto index = static_cast<std::size_t>(found - spans.begin());
    const std::size_t first = cluster_begin(place, index);
    const std::size_t last = past_next_dwell(place, cluster_end(place, index));
    append_faults(place, first, last, true, recheck.gone);
    spans.erase(found);
    reach.erase(reach.begin() + static_cast<std::ptrdiff_t>(index));
    repair_reach(place, index);
    append_faults(place, first, last - 1, true, recheck.come);
}

void CueIndex::put_in(std::size_t place, const CueSpan& span, Recheck& recheck) {
    std::vector<CueSpan>& spans = all_.channels[place].spans;
    std::vector<Micros>& reach = lanes_[place].reach;
    auto first =
        static_cast<std::size_t>(std::lower_bound(reach.begin(), reach.end(), span.begin) - reach.begin());
    if (first < spans.size()) {
        first = cluster_begin(place, first);
    }
    std::size_t last = first;
    while (last < spans.size() && spans[last].begin <= span.end) {
        last = cluster_end(place, last);
    }
    last = past_next_dwell(place, last);
    append_faults(place, first, last, true, recheck.gone);
    const auto found = std::lower_bound(spans.begin(), spans.end(), span, in_order);
    const auto index = static_cast<std::size_t>(found - spans.begin());
    spans.insert(found, span);
    reach.insert(reach.begin() + static_cast<std::ptrdiff_t>(index), Micros{0});
    repair_reach(place, index);
    append_faults(place, first, last + 1, true, recheck.come);
}

void CueIndex::note_flashes(const PlacedCue& placed, bool added) {
    const std::size_t wanted = flashes_wanted(placed.cue);
    if (wanted == 0) {
        return;
    }
    if (added) {
        all_.flashes += wanted;
        all_.flashing.insert_or_assign(placed.cue.id,
                                       FlashingCue{placed.start, placed.cue.length, *placed.cue.flashes});
    } else {
        all_.flashes -= wanted;
        all_.flashing.erase(placed.cue.id);
    }
}

}  // namespace gasp
