// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "tests/bench/checks/sort_and_sweep.hpp"

#include "core/checks/exclusive.hpp"

#include <algorithm>
#include <unordered_map>

namespace gasp::bench {
namespace {

struct Row {
    std::size_t place;
    Micros begin;
    Micros end;
    CueId cue;
};

std::vector<Row> sorted_rows(const Show& show, const Sequence& sequence) {
    std::unordered_map<ChannelId, std::size_t> places;
    std::vector<Micros> ticks;
    for (const Channel& channel : show.rig.channels) {
        places.insert({channel.id, ticks.size()});
        ticks.push_back(tick_of(show, channel));
    }
    std::vector<Row> rows;
    rows.reserve(sequence.cues.size());
    for (const Cue& cue : sequence.cues) {
        const std::size_t place = places.at(cue.channel);
        const Micros start = start_of(sequence, cue);
        const Micros last = sequence.length / ticks[place] * ticks[place];
        const Micros begin = std::clamp(on_tick(start, ticks[place]), Micros{0}, last);
        const Micros end = std::clamp(on_tick(start + cue.length, ticks[place]), Micros{0}, last);
        if (begin < end) {
            rows.push_back({place, begin, end, cue.id});
        }
    }
    std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
        return a.place != b.place   ? a.place < b.place
               : a.begin != b.begin ? a.begin < b.begin
                                    : a.cue < b.cue;
    });
    return rows;
}

/// The dwells of one channel's rows, with the overlaps on the way.
std::vector<OwnedDwell> joined(ChannelId channel, const Row* first, const Row* last,
                               std::vector<CueFault>& faults) {
    std::vector<OwnedDwell> dwells;
    for (const Row* row = first; row != last; ++row) {
        if (dwells.empty() || row->begin > dwells.back().dwell.end) {
            dwells.push_back({{row->begin, row->end}, row->cue, row->cue});
            continue;
        }
        OwnedDwell& dwell = dwells.back();
        if (row->begin < dwell.dwell.end) {
            const Micros shared = std::min(dwell.dwell.end, row->end) - row->begin;
            faults.push_back({CueFaultKind::overlap,
                              channel,
                              {},
                              dwell.last,
                              row->cue,
                              row->begin,
                              shared,
                              Micros{0},
                              false});
        }
        if (row->end > dwell.dwell.end) {
            dwell.dwell.end = row->end;
            dwell.last = row->cue;
        }
    }
    return dwells;
}

}  // namespace

std::vector<CueFault> sort_and_sweep(const Show& show, const Sequence& sequence) {
    const std::vector<Row> rows = sorted_rows(show, sequence);
    const auto exclusive = exclusive_places(show.rig);
    std::vector<CueFault> faults;
    std::vector<std::vector<OwnedDwell>> dwells(show.rig.channels.size());
    const Row* row = rows.data();
    const Row* const end = row + rows.size();
    for (std::size_t place = 0; place < dwells.size(); ++place) {
        const Row* first = row;
        while (row != end && row->place == place) {
            ++row;
        }
        const Channel& channel = show.rig.channels[place];
        dwells[place] = joined(channel.id, first, row, faults);
        const DwellLimits limits = dwell_limits(show, channel);
        ShortDwells short_dwells(channel.id, limits, std::nullopt);
        for (const OwnedDwell& dwell : dwells[place]) {
            short_dwells.take(dwell, faults);
        }
    }
    for (std::size_t place = 0; place < dwells.size(); ++place) {
        for (const std::size_t other : exclusive[place]) {
            if (other > place) {
                find_both_powered({show.rig.channels[place].id, dwells[place]},
                                  {show.rig.channels[other].id, dwells[other]}, faults);
            }
        }
    }
    return faults;
}

}  // namespace gasp::bench
