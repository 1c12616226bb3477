// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/schedule/cue_spans.hpp"

#include "core/schedule/flashes.hpp"
#include "core/schedule/radix.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace gasp {
namespace {

/// Finds a channel's place in the rig in constant time, whatever the ids are.
class ChannelPlaces {
  public:
    explicit ChannelPlaces(const std::vector<Channel>& channels)
        : mask_(std::bit_ceil(2 * channels.size() + 1) - 1), table_(mask_ + 1) {
        for (std::uint32_t place = 0; place < channels.size(); ++place) {
            std::size_t slot = first_slot(channels[place].id);
            while (table_[slot].place != nowhere) {
                slot = (slot + 1) & mask_;
            }
            table_[slot] = {channels[place].id, place};
        }
    }

    static constexpr std::uint32_t nowhere = std::numeric_limits<std::uint32_t>::max();

    [[nodiscard]] std::uint32_t find(ChannelId id) const {
        std::size_t slot = first_slot(id);
        while (table_[slot].place != nowhere && table_[slot].id != id) {
            slot = (slot + 1) & mask_;
        }
        return table_[slot].place;
    }

  private:
    struct Entry {
        ChannelId id;
        std::uint32_t place = nowhere;
    };

    [[nodiscard]] std::size_t first_slot(ChannelId id) const { return (id.value * 2654435761U >> 7) & mask_; }

    std::size_t mask_;
    std::vector<Entry> table_;
};

std::vector<ChannelSpans> empty_channels(const Show& show, const Sequence& sequence) {
    std::vector<ChannelSpans> channels;
    channels.reserve(show.rig.channels.size());
    for (const Channel& channel : show.rig.channels) {
        const Micros tick = std::max(tick_of(show, channel), Micros{1});
        channels.push_back({channel.id, tick, sequence.length / tick * tick, {}});
    }
    return channels;
}

struct PlacedSpan {
    CueSpan span;
    std::uint32_t place = 0;  ///< of its channel in the rig
};

/// Gives each channel its spans. Each list is made once, at its size.
void hand_out(const std::vector<PlacedSpan>& unsorted, std::vector<ChannelSpans>& channels) {
    std::vector<std::size_t> counts(channels.size());
    for (const PlacedSpan& placed : unsorted) {
        ++counts[placed.place];
    }
    for (std::size_t place = 0; place < channels.size(); ++place) {
        channels[place].spans.reserve(counts[place]);
    }
    for (const PlacedSpan& placed : unsorted) {
        channels[placed.place].spans.push_back(placed.span);
    }
}

/// Sorts by begin, keeping the order of those that begin together. Sorts small keys that name the spans, so
/// that little moves and all of it stays in the nearest cache.
void put_in_order(std::vector<CueSpan>& spans, Micros tick) {
    const auto by_begin = [](const CueSpan& a, const CueSpan& b) { return a.begin < b.begin; };
    if (std::is_sorted(spans.begin(), spans.end(), by_begin)) {
        return;
    }
    const auto index_bits = static_cast<unsigned>(std::bit_width(spans.size()));
    std::vector<std::uint64_t> keys(spans.size());
    for (std::size_t i = 0; i < spans.size(); ++i) {
        keys[i] = (static_cast<std::uint64_t>(spans[i].begin / tick) << index_bits) | i;
    }
    radix_sort(keys, [index_bits](std::uint64_t key) { return key >> index_bits; });
    const std::uint64_t index_mask = (std::uint64_t{1} << index_bits) - 1;
    std::vector<CueSpan> ordered;
    ordered.reserve(spans.size());
    for (const std::uint64_t key : keys) {
        ordered.push_back(spans[key & index_mask]);
    }
    spans = std::move(ordered);
}

/// The furthest an edge within the sequence is moved to reach the tick.
Micros rounding(Micros edge, Micros rounded, Micros length) {
    return edge >= Micros{0} && edge <= length ? std::chrono::abs(rounded - edge) : Micros{0};
}

std::optional<CueSpan> cut(const ChannelSpans& channel, Micros begin, Micros end, const Cue& cue) {
    begin = std::clamp(begin, Micros{0}, channel.last_tick);
    end = std::clamp(end, Micros{0}, channel.last_tick);
    if (begin >= end) {
        return std::nullopt;
    }
    return CueSpan{begin, end, cue.id, cue.flashes && flashes_wanted(cue) > 0};
}

/// A stretch of one cue, rounded, before it is joined with others.
OwnedDwell piece(Micros begin, Micros end, CueId cue) {
    return {{begin, end}, cue, cue};
}

void append_flashes(const SequenceSpans& all, const ChannelSpans& channel, const CueSpan& span,
                    std::vector<OwnedDwell>& pieces, RoundingNotes& notes) {
    const FlashingCue& cue = all.flashing.at(span.cue);
    Micros end_before{-1};
    for_each_flash(
        cue, channel.last_tick, flash_allowance(all.flashes, all.flashing.size()), [&](const Dwell& flash) {
            const Micros begin = on_tick(flash.begin, channel.tick);
            const Micros end = on_tick(flash.end, channel.tick);
            notes.largest = std::max(
                {notes.largest, std::chrono::abs(begin - flash.begin), std::chrono::abs(end - flash.end)});
            if (begin == end) {
                ++notes.lost;
                return;
            }
            notes.lost += begin == end_before ? 1U : 0U;
            end_before = end;
            const Micros begin_here = std::max(begin, span.begin);
            const Micros end_here = std::min(end, span.end);
            if (begin_here < end_here) {
                pieces.push_back(piece(begin_here, end_here, span.cue));
            }
        });
}

/// Joins the pieces from `from` on that overlap or touch, in place. They are in order of their begin.
void join(std::vector<OwnedDwell>& pieces, std::size_t from) {
    if (pieces.size() <= from) {
        return;
    }
    std::size_t last = from;
    for (std::size_t i = from + 1; i < pieces.size(); ++i) {
        OwnedDwell& joined = pieces[last];
        if (pieces[i].dwell.begin > joined.dwell.end) {
            pieces[++last] = pieces[i];
        } else if (pieces[i].dwell.end > joined.dwell.end) {
            joined.dwell.end = pieces[i].dwell.end;
            joined.last = pieces[i].last;
        }
    }
    pieces.resize(last + 1);
}

}  // namespace

std::size_t flashes_wanted(const Cue& cue) {
    if (!cue.flashes || !(cue.flashes->rate_hz > 0.0)) {
        return 0;
    }
    const double wanted = std::ceil(static_cast<double>(cue.length.count()) * cue.flashes->rate_hz / 1e6);
    return static_cast<std::size_t>(std::clamp(wanted, 0.0, 1e15));
}

std::size_t flash_allowance(std::size_t flashes, std::size_t flashing_cues) {
    if (flashes <= most_flashes) {
        return most_flashes;
    }
    return std::max<std::size_t>(most_flashes / std::max<std::size_t>(flashing_cues, 1), 1);
}

std::optional<CueSpan> span_of(const ChannelSpans& channel, const PlacedCue& placed) {
    return cut(channel, on_tick(placed.start, channel.tick),
               on_tick(placed.start + placed.cue.length, channel.tick), placed.cue);
}

SequenceSpans cue_spans(const Show& show, const Sequence& sequence) {
    SequenceSpans all;
    all.channels = empty_channels(show, sequence);
    const ChannelPlaces places(show.rig.channels);
    std::vector<PlacedSpan> unsorted;
    unsorted.reserve(sequence.cues.size());
    for (const Cue& cue : sequence.cues) {
        const std::uint32_t place = places.find(cue.channel);
        if (place == ChannelPlaces::nowhere) {
            continue;
        }
        const ChannelSpans& channel = all.channels[place];
        const Micros start = cue.mark ? start_of(sequence, cue) : cue.at;
        const Micros end = start + cue.length;
        const Micros start_on_tick = on_tick(start, channel.tick);
        const Micros end_on_tick = on_tick(end, channel.tick);
        all.largest_rounding =
            std::max({all.largest_rounding, rounding(start, start_on_tick, sequence.length),
                      rounding(end, end_on_tick, sequence.length)});
        if (const std::size_t wanted = cue.flashes ? flashes_wanted(cue) : 0; wanted > 0) {
            all.flashes += wanted;
            all.flashing.insert({cue.id, {start, cue.length, *cue.flashes}});
        }
        if (const auto span = cut(channel, start_on_tick, end_on_tick, cue)) {
            unsorted.push_back({*span, place});
        } else if (start >= Micros{0} && start < sequence.length) {
            ++all.vanished;
        }
    }
    hand_out(unsorted, all.channels);
    for (ChannelSpans& channel : all.channels) {
        put_in_order(channel.spans, channel.tick);
    }
    return all;
}

void append_dwells(const SequenceSpans& all, const ChannelSpans& channel, std::span<const CueSpan> together,
                   std::vector<OwnedDwell>& dwells, RoundingNotes& notes) {
    if (together.size() == 1 && !together.front().flashing) {
        const CueSpan& span = together.front();
        dwells.push_back(piece(span.begin, span.end, span.cue));
        return;
    }
    const std::size_t from = dwells.size();
    bool flashing = false;
    for (const CueSpan& span : together) {
        flashing = flashing || span.flashing;
        if (span.flashing) {
            append_flashes(all, channel, span, dwells, notes);
        } else {
            dwells.push_back(piece(span.begin, span.end, span.cue));
        }
    }
    if (flashing && together.size() > 1) {
        std::stable_sort(
            dwells.begin() + static_cast<std::ptrdiff_t>(from), dwells.end(),
            [](const OwnedDwell& a, const OwnedDwell& b) { return a.dwell.begin < b.dwell.begin; });
    }
    join(dwells, from);
}

}  // namespace gasp
