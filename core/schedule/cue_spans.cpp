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

/// Ticks are counted in 31 bits while cues are sorted: 24 h, the longest sequence, has 2^30 of the shortest
/// tick. What a show beyond both asks for after that is cut.
constexpr Micros::rep most_ticks = (Micros::rep{1} << 31) - 1;

std::vector<ChannelSpans> empty_channels(const Show& show, const Sequence& sequence) {
    std::vector<ChannelSpans> channels;
    channels.reserve(show.rig.channels.size());
    for (const Channel& channel : show.rig.channels) {
        const Micros tick = std::max(tick_of(show, channel), Micros{1});
        const auto ticks = std::clamp<Micros::rep>(sequence.length / tick, 0, most_ticks);
        channels.push_back({channel.id, tick, ticks * tick, {}});
    }
    return channels;
}

/// A cue on its channel as it is sorted, small because many are moved.
struct Row {
    Row() = default;
    Row(std::uint64_t begin_tick, std::uint64_t end_tick, CueId id, bool flashing)
        : begin(static_cast<std::uint32_t>(begin_tick)),
          end_and_flashing(static_cast<std::uint32_t>(end_tick << 1 | (flashing ? 1U : 0U))),
          cue(id.value) {}

    std::uint32_t begin = 0;             ///< in ticks
    std::uint32_t end_and_flashing = 0;  ///< twice the end in ticks, and 1 when flashing
    std::uint32_t cue = 0;
};

/// What it takes to put cues on one channel.
struct Lane {
    explicit Lane(const ChannelSpans& channel)
        : ticks(channel.tick), last(ticks.nearest(channel.last_tick).ticks) {}

    [[nodiscard]] Ticks::Nearest nearest(Micros moment) const {
        return ticks.nearest(std::max(moment, Micros{0}));
    }

    Ticks ticks;
    std::uint64_t last;  ///< tick of the sequence
    std::vector<Row> rows;
};

/// How far an edge within the sequence is moved to reach the tick.
Micros rounding(Micros edge, const Ticks::Nearest& nearest, Micros length) {
    return edge >= Micros{0} && edge <= length ? nearest.off : Micros{0};
}

/// Notes the flashes of a cue; false when it wants none.
bool note_flashes(const Cue& cue, Micros start, SequenceSpans& all) {
    const std::size_t wanted = flashes_wanted(cue);
    if (wanted > 0) {
        all.flashes += wanted;
        all.flashing.insert({cue.id, {start, cue.length, *cue.flashes}});
    }
    return wanted > 0;
}

/// Gives each lane the rows of its cues that have a span, in the order of the cues.
void fill(std::vector<Lane>& lanes, const Show& show, const Sequence& sequence, SequenceSpans& all) {
    const ChannelPlaces places(show.rig.channels);
    const Micros length = sequence.length;
    Micros largest{0};
    for (const Cue& cue : sequence.cues) {
        const std::uint32_t place = places.find(cue.channel);
        if (place == ChannelPlaces::nowhere) {
            continue;
        }
        Lane& lane = lanes[place];
        const Micros start = cue.mark ? start_of(sequence, cue) : cue.at;
        const Micros stop = start + cue.length;
        const Ticks::Nearest begin = lane.nearest(start);
        const Ticks::Nearest end = lane.nearest(stop);
        largest = std::max({largest, rounding(start, begin, length), rounding(stop, end, length)});
        const bool flashing = cue.flashes && note_flashes(cue, start, all);
        const std::uint64_t cut_end = std::min(end.ticks, lane.last);
        if (begin.ticks < cut_end) {
            lane.rows.emplace_back(begin.ticks, cut_end, cue.id, flashing);
        } else if (start >= Micros{0} && start < length) {
            ++all.vanished;
        }
    }
    all.largest_rounding = largest;
}

void hand_over(std::span<const Row> rows, const Ticks& ticks, std::vector<CueSpan>& spans) {
    spans.resize(rows.size());
    CueSpan* span = spans.data();
    for (const Row& row : rows) {
        // Member by member: GCC 12 would build a whole one aside and wait for it before copying it.
        span->begin = ticks.moment(row.begin);
        span->end = ticks.moment(row.end_and_flashing >> 1);
        span->cue = CueId{row.cue};
        span->flashing = (row.end_and_flashing & 1U) != 0;
        ++span;
    }
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

/// Joins the pieces that overlap or touch, in place. They are in order of their begin.
void join(std::vector<OwnedDwell>& pieces) {
    if (pieces.empty()) {
        return;
    }
    std::size_t last = 0;
    for (std::size_t i = 1; i < pieces.size(); ++i) {
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

std::optional<CueSpan> span_of(const ChannelSpans& channel, const StartedCue& started) {
    const Lane lane(channel);
    const std::uint64_t begin = lane.nearest(started.start).ticks;
    const std::uint64_t end = std::min(lane.nearest(started.start + started.cue.length).ticks, lane.last);
    if (begin >= end) {
        return std::nullopt;
    }
    return CueSpan{lane.ticks.moment(begin), lane.ticks.moment(end), started.cue.id,
                   flashes_wanted(started.cue) > 0};
}

SequenceSpans cue_spans(const Show& show, const Sequence& sequence) {
    SequenceSpans all;
    all.channels = empty_channels(show, sequence);
    std::vector<Lane> lanes(all.channels.begin(), all.channels.end());
    for (Lane& lane : lanes) {
        lane.rows.reserve(sequence.cues.size() * 5 / 4 / lanes.size());
    }
    fill(lanes, show, sequence, all);
    std::vector<Row> other;
    for (std::size_t place = 0; place < lanes.size(); ++place) {
        Lane& lane = lanes[place];
        other.resize(std::max(other.size(), lane.rows.size()));
        // The cues of a sequence stand in the order of their ids: sorted by begin, stably, they are also by
        // cue.
        const std::span sorted = radix_sort(std::span(lane.rows), std::span(other).first(lane.rows.size()),
                                            [](const Row& row) { return std::uint64_t{row.begin}; });
        hand_over(sorted, lane.ticks, all.channels[place].spans);
    }
    return all;
}

std::vector<OwnedDwell> joined_dwells(const SequenceSpans& all, const ChannelSpans& channel,
                                      std::span<const CueSpan> together, RoundingNotes& notes) {
    std::vector<OwnedDwell> dwells;
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
        std::stable_sort(dwells.begin(), dwells.end(), [](const OwnedDwell& a, const OwnedDwell& b) {
            return a.dwell.begin < b.dwell.begin;
        });
    }
    join(dwells);
    return dwells;
}

}  // namespace gasp
