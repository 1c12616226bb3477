// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/lane_index.hpp"

#include <algorithm>
#include <tuple>

namespace gasp {

namespace {

/// So many cues moved at once are indexed afresh, which is then cheaper than one by one.
constexpr std::size_t many = 512;

bool before(const PlacedCue& a, const PlacedCue& b) {
    return std::tie(a.begin, a.id) < std::tie(b.begin, b.id);
}

/// What of a sequence's cues an edit touches: the cues it names and those tied to the marks it names.
struct Touched {
    SequenceId sequence;
    std::unordered_set<CueId> cues;
    std::unordered_set<MarkId> marks;
    bool all = false;

    template <class T, class Ids>
    static void collect(const InSequence<T>& change, Ids& ids) {
        for (const Exchange<T>& exchange : change.exchanges) {
            ids.insert(exchange.before ? exchange.before->id : exchange.after->id);
        }
    }
    void operator()(const InSequence<Cue>& change) {
        if (change.sequence == sequence) {
            collect(change, cues);
        }
    }
    void operator()(const InSequence<Mark>& change) {
        if (change.sequence == sequence) {
            collect(change, marks);
        }
    }
    void operator()(const Exchange<Sequence>&) { all = true; }
    template <class T>
    void operator()(const T&) {}
};

}  // namespace

std::size_t LaneCues::first_from(Micros begin) const {
    const auto found = std::lower_bound(cues_.begin(), cues_.end(), begin,
                                        [](const PlacedCue& cue, Micros time) { return cue.begin < time; });
    return static_cast<std::size_t>(found - cues_.begin());
}

void LaneCues::update_reach(std::size_t from) {
    reach_.resize((cues_.size() + block_size - 1) / block_size);
    for (std::size_t block = from / block_size; block < reach_.size(); ++block) {
        Micros reach = Micros::min();
        const std::size_t stop = std::min(cues_.size(), (block + 1) * block_size);
        for (std::size_t i = block * block_size; i < stop; ++i) {
            reach = std::max(reach, cues_[i].end);
        }
        reach_[block] = reach;
    }
}

void LaneCues::assign(std::vector<PlacedCue> cues) {
    cues_ = std::move(cues);
    std::sort(cues_.begin(), cues_.end(), before);
    update_reach(0);
}

void LaneCues::insert(const PlacedCue& cue) {
    const auto at = cues_.insert(std::upper_bound(cues_.begin(), cues_.end(), cue, before), cue);
    update_reach(static_cast<std::size_t>(at - cues_.begin()));
}

void LaneCues::erase(const PlacedCue& cue) {
    const auto found = std::lower_bound(cues_.begin(), cues_.end(), cue, before);
    if (found != cues_.end() && found->id == cue.id) {
        update_reach(static_cast<std::size_t>(cues_.erase(found) - cues_.begin()));
    }
}

void LaneIndex::rebuild(const Sequence& sequence) {
    lanes_.clear();
    places_.clear();
    tied_.clear();
    std::unordered_map<ChannelId, std::vector<PlacedCue>> by_channel;
    places_.reserve(sequence.cues.size());
    for (const Cue& cue : sequence.cues) {
        const PlacedCue now = placed(sequence, cue);
        by_channel[cue.channel].push_back(now);
        places_[cue.id] = {now, cue.channel, cue.mark};
        if (cue.mark) {
            tied_[*cue.mark].insert(cue.id);
        }
    }
    for (auto& [channel, cues] : by_channel) {
        lanes_[channel].assign(std::move(cues));
    }
}

PlacedCue LaneIndex::placed(const Sequence& sequence, const Cue& cue) const {
    Micros begin = start_of(sequence, cue);
    if (cue.strikes) {
        const auto lead = leads_.find(cue.id);
        begin -= lead == leads_.end() ? Micros{0} : lead->second;
    }
    return {begin, begin + cue.length, cue.id};
}

std::vector<ChannelId> LaneIndex::take_leads(const Sequence& sequence, std::span<const CueLead> leads) {
    std::unordered_set<ChannelId> channels;
    for (const auto& [cue, lead] : leads) {
        Micros& known = leads_[cue];
        if (known != lead) {
            known = lead;
            sync(sequence, cue, channels);
        }
    }
    return {channels.begin(), channels.end()};
}

void LaneIndex::put(const Sequence& sequence, const Cue& cue) {
    const PlacedCue now = placed(sequence, cue);
    lanes_[cue.channel].insert(now);
    places_[cue.id] = {now, cue.channel, cue.mark};
    if (cue.mark) {
        tied_[*cue.mark].insert(cue.id);
    }
}

void LaneIndex::sync(const Sequence& sequence, CueId id, std::unordered_set<ChannelId>& touched) {
    if (const auto old = places_.find(id); old != places_.end()) {
        const Place place = old->second;
        touched.insert(place.channel);
        lanes_[place.channel].erase(place.cue);
        if (place.mark) {
            tied_[*place.mark].erase(id);
        }
        places_.erase(old);
    }
    if (const Cue* cue = gasp::find(sequence, id)) {
        put(sequence, *cue);
        touched.insert(cue->channel);
    }
}

std::vector<ChannelId> LaneIndex::follow(const Edit& edit, const Sequence& sequence) {
    Touched touched{sequence.id, {}, {}, false};
    for (const Change& change : edit.changes) {
        std::visit(touched, change);
    }
    for (const MarkId mark : touched.marks) {
        if (const auto tied = tied_.find(mark); tied != tied_.end()) {
            touched.cues.insert(tied->second.begin(), tied->second.end());
        }
    }
    std::unordered_set<ChannelId> channels;
    if (touched.all || touched.cues.size() > many) {
        for (const auto& [channel, cues] : lanes_) {
            channels.insert(channel);
        }
        rebuild(sequence);
        for (const auto& [channel, cues] : lanes_) {
            channels.insert(channel);
        }
    } else {
        for (const CueId id : touched.cues) {
            sync(sequence, id, channels);
        }
    }
    return {channels.begin(), channels.end()};
}

const LaneCues& LaneIndex::of(ChannelId channel) const {
    static const LaneCues none;
    const auto found = lanes_.find(channel);
    return found == lanes_.end() ? none : found->second;
}

const PlacedCue* LaneIndex::find(CueId id) const {
    const auto found = places_.find(id);
    return found == places_.end() ? nullptr : &found->second.cue;
}

}  // namespace gasp
