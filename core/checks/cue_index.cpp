// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/checks/cue_index.hpp"

#include "core/checks/exclusive.hpp"
#include "core/schedule/clusters.hpp"

#include <algorithm>
#include <utility>

namespace gasp {
namespace {

bool in_order(const CueSpan& a, const CueSpan& b) {
    return a.begin != b.begin ? a.begin < b.begin : a.cue < b.cue;
}

}  // namespace

CueIndex::CueIndex(const Show& show, const Sequence& sequence)
    : CueIndex(show, sequence, cue_spans(show, sequence)) {}

CueIndex::CueIndex(const Show& show, const Sequence& sequence, SequenceSpans spans)
    : all_(std::move(spans)), lanes_(all_.channels.size()), length_(sequence.length) {
    const auto exclusive = exclusive_places(show.rig);
    for (std::size_t place = 0; place < lanes_.size(); ++place) {
        Lane& lane = lanes_[place];
        lane.contact = show.rig.channels[place].contact;
        lane.limits = dwell_limits(show, show.rig.channels[place]);
        lane.exclusive = exclusive[place];
    }
}

std::vector<CueFault> CueIndex::faults() const {
    std::vector<CueFault> faults;
    std::vector<std::vector<OwnedDwell>> with_power(lanes_.size());
    for (std::size_t place = 0; place < lanes_.size(); ++place) {
        with_power[place] =
            powered(place, append_own_faults(place, 0, all_.channels[place].spans.size(), faults));
    }
    for (std::size_t place = 0; place < lanes_.size(); ++place) {
        for (const std::size_t other : lanes_[place].exclusive) {
            if (place < other) {
                find_both_powered({all_.channels[place].channel, with_power[place]},
                                  {all_.channels[other].channel, with_power[other]}, faults);
            }
        }
    }
    return faults;
}

CueIndex::Recheck CueIndex::update(const std::optional<StartedCue>& before,
                                   const std::optional<StartedCue>& after) {
    Recheck recheck;
    const std::size_t allowance = flash_allowance(all_.flashes, all_.flashing.size());
    const bool all_flashes_shared = allowance < most_flashes;
    if (all_flashes_shared) {
        recheck.gone = faults();  // a change of one cue may change the share of every other
    }
    Recheck near;
    if (const auto place = before ? place_of(before->cue.channel) : std::nullopt) {
        make_ready(*place);
        if (const auto span = span_of(all_.channels[*place], *before)) {
            take_out(*place, *span, near);
        }
        note_flashes(*before, false);
    }
    if (const auto place = after ? place_of(after->cue.channel) : std::nullopt) {
        make_ready(*place);
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

/// Makes the reach of a channel that is about to change, and of those it excludes. A full check needs none.
void CueIndex::make_ready(std::size_t place) {
    const auto make_reach = [this](std::size_t at) {
        std::vector<Micros>& reach = lanes_[at].reach;
        const std::vector<CueSpan>& spans = all_.channels[at].spans;
        if (reach.size() != spans.size()) {
            reach.resize(spans.size());
            repair_reach(at, 0);
        }
    };
    make_reach(place);
    std::for_each(lanes_[place].exclusive.begin(), lanes_[place].exclusive.end(), make_reach);
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
    for_each_dwell(all_, channel, std::span(channel.spans).subspan(first, last - first), notes,
                   [&dwells](const OwnedDwell& dwell) { dwells.push_back(dwell); });
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
std::vector<OwnedDwell> CueIndex::powered(std::size_t place, Around around) const {
    if (lanes_[place].contact == Contact::normally_open) {
        return std::move(around.dwells);
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

/// Faults of the clusters in [first, last) of one channel and of the rests before them. Gives back their
/// dwells where channels exclude this one.
CueIndex::Around CueIndex::append_own_faults(std::size_t place, std::size_t first, std::size_t last,
                                             std::vector<CueFault>& faults) const {
    const ChannelSpans& channel = all_.channels[place];
    const Lane& lane = lanes_[place];
    const bool dwells_wanted = !lane.exclusive.empty();
    const bool dwells_matter = dwells_wanted || !lane.limits.driven.empty() || !lane.limits.resting.empty();
    Around around;
    around.before = dwell_before(place, first);
    around.dwells.reserve(dwells_wanted ? last - first : 0);
    around.to_the_end = last == channel.spans.size();
    ShortDwells short_dwells(channel.channel, lane.limits, around.before);
    RoundingNotes notes;
    const std::span spans = std::span(channel.spans).subspan(first, last - first);
    for_each_cluster(spans, [&](std::size_t begin, std::size_t end) {
        const std::span together = spans.subspan(begin, end - begin);
        if (together.size() > 1) {
            find_overlaps(channel.channel, together, faults);
        }
        if (!dwells_matter) {
            return;
        }
        for_each_dwell(all_, channel, together, notes, [&](const OwnedDwell& dwell) {
            short_dwells.take(dwell, faults);
            if (dwells_wanted) {
                around.dwells.push_back(dwell);
            }
        });
    });
    return around;
}

/// Faults of the clusters in [first, last), the rests before them, and what they meet on channels they
/// exclude.
void CueIndex::append_faults(std::size_t place, std::size_t first, std::size_t last,
                             std::vector<CueFault>& faults) const {
    const Around around = append_own_faults(place, first, last, faults);
    for (const std::size_t other : lanes_[place].exclusive) {
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
    append_faults(place, first, last, recheck.gone);
    spans.erase(found);
    reach.erase(reach.begin() + static_cast<std::ptrdiff_t>(index));
    repair_reach(place, index);
    append_faults(place, first, last - 1, recheck.come);
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
    append_faults(place, first, last, recheck.gone);
    const auto found = std::lower_bound(spans.begin(), spans.end(), span, in_order);
    const auto index = static_cast<std::size_t>(found - spans.begin());
    spans.insert(found, span);
    reach.insert(reach.begin() + static_cast<std::ptrdiff_t>(index), Micros{0});
    repair_reach(place, index);
    append_faults(place, first, last + 1, recheck.come);
}

void CueIndex::note_flashes(const StartedCue& started, bool added) {
    const std::size_t wanted = flashes_wanted(started.cue);
    if (wanted == 0) {
        return;
    }
    if (added) {
        all_.flashes += wanted;
        all_.flashing.insert_or_assign(started.cue.id,
                                       FlashingCue{started.start, started.cue.length, *started.cue.flashes});
    } else {
        all_.flashes -= wanted;
        all_.flashing.erase(started.cue.id);
    }
}

}  // namespace gasp
