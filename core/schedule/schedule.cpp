// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/schedule.hpp"

#include "core/schedule/clusters.hpp"
#include "core/schedule/cue_spans.hpp"
#include "core/schedule/flashes.hpp"
#include "core/schedule/radix.hpp"
#include "core/schedule/sequence_run.hpp"

#include <algorithm>
#include <bit>
#include <numeric>

namespace gasp {
namespace {

/// An event in 64 bits, so that sorting moves little: time in units of the common tick, place of the channel,
/// state.
struct Packing {
    std::int64_t unit = 1;
    unsigned place_bits = 1;

    [[nodiscard]] std::uint64_t pack(Micros time, std::size_t place, bool driven) const {
        return (static_cast<std::uint64_t>(time.count() / unit) << (place_bits + 1)) |
               (std::uint64_t{place} << 1) | (driven ? 1U : 0U);
    }
    [[nodiscard]] Micros time(std::uint64_t packed) const {
        return Micros{static_cast<std::int64_t>(packed >> (place_bits + 1)) * unit};
    }
    [[nodiscard]] std::size_t place(std::uint64_t packed) const {
        return (packed >> 1) & ((std::size_t{1} << place_bits) - 1);
    }
};

Packing packing_for(const std::vector<ChannelSpans>& channels) {
    std::int64_t unit = 0;
    for (const ChannelSpans& channel : channels) {
        unit = std::gcd(unit, channel.tick.count());
    }
    return {std::max<std::int64_t>(unit, 1), static_cast<unsigned>(std::bit_width(channels.size()))};
}

std::vector<std::uint64_t> packed_events(const SequenceSpans& all, const Packing& packing,
                                         RoundingNotes& notes) {
    std::vector<std::uint64_t> packed;
    for (std::size_t place = 0; place < all.channels.size(); ++place) {
        const ChannelSpans& channel = all.channels[place];
        const std::span<const CueSpan> spans = channel.spans;
        for_each_cluster(spans, [&](std::size_t first, std::size_t last) {
            const auto together = spans.subspan(first, last - first);
            for_each_dwell(all, channel, together, notes, [&](const OwnedDwell& owned) {
                packed.push_back(packing.pack(owned.dwell.begin, place, true));
                packed.push_back(packing.pack(owned.dwell.end, place, false));
            });
        });
    }
    std::vector<std::uint64_t> other(packed.size());
    const auto sorted =
        radix_sort(std::span(packed), std::span(other), [](std::uint64_t value) { return value; });
    return sorted.data() == packed.data() ? packed : other;
}

}  // namespace

std::vector<Dwell> dwells_of(const Sequence& sequence, const Cue& cue, std::size_t most) {
    const Micros start = start_of(sequence, cue);
    if (flashes_wanted(cue) == 0) {
        return most == 0 ? std::vector<Dwell>{} : std::vector<Dwell>{{start, start + cue.length}};
    }
    std::vector<Dwell> dwells;
    for_each_flash({start, cue.length, *cue.flashes}, Micros::max(), most,
                   [&](const Dwell& flash) { dwells.push_back(flash); });
    return dwells;
}

Schedule resolve(const Show& show, const Sequence& sequence) {
    if (has_strikes(sequence)) {
        AirMemo memo;
        return work_out(show, sequence, memo).schedule;
    }
    return resolve(show, sequence, cue_spans(show, sequence));
}

Schedule resolve(const Show& show, const Sequence& sequence, const SequenceSpans& all) {
    Schedule schedule;
    schedule.sequence = sequence.id;
    schedule.length = sequence.length;
    schedule.channels.reserve(all.channels.size());
    for (std::size_t place = 0; place < all.channels.size(); ++place) {
        const ChannelSpans& channel = all.channels[place];
        schedule.channels.push_back({channel.channel, show.rig.channels[place].contact, channel.tick});
    }
    RoundingNotes notes{all.largest_rounding, all.vanished};
    const Packing packing = packing_for(all.channels);
    const std::vector<std::uint64_t> packed = packed_events(all, packing, notes);
    schedule.events.reserve(packed.size());
    for (const std::uint64_t event : packed) {
        schedule.events.push_back(
            {packing.time(event), schedule.channels[packing.place(event)].id, (event & 1U) != 0});
    }
    schedule.largest_rounding = notes.largest;
    schedule.lost_in_tick = notes.lost;
    return schedule;
}

std::vector<std::vector<Dwell>> dwells_by_channel(const Schedule& schedule) {
    std::unordered_map<ChannelId, std::size_t> places;
    for (std::size_t place = 0; place < schedule.channels.size(); ++place) {
        places.insert({schedule.channels[place].id, place});
    }
    std::vector<std::vector<Dwell>> dwells(schedule.channels.size());
    for (const SwitchEvent& event : schedule.events) {
        std::vector<Dwell>& of_channel = dwells[places.at(event.channel)];
        if (event.driven) {
            of_channel.push_back({event.time, schedule.length});
        } else {
            of_channel.back().end = event.time;
        }
    }
    return dwells;
}

bool driven_at(std::span<const Dwell> dwells, Micros time) {
    const auto after =
        std::upper_bound(dwells.begin(), dwells.end(), time,
                         [](Micros moment, const Dwell& dwell) { return moment < dwell.begin; });
    return after != dwells.begin() && time < std::prev(after)->end;
}

}  // namespace gasp
