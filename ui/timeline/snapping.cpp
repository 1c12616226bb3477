// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/timeline/snapping.hpp"

#include <algorithm>
#include <cstdlib>

namespace gasp {

namespace {

constexpr double snap_px = 8.0;
constexpr double grid_snap_px = 3.0;

QString quoted(const std::string& name) {
    return QStringLiteral("\u201c%1\u201d").arg(QString::fromStdString(name));
}

/// Collects the nearest of what it is offered; the earlier offer wins where two are as near.
class Nearest {
  public:
    Nearest(std::span<const Micros> edges, Micros reach) : edges_(edges), reach_(reach) {}

    template <class Word>
    void offer(Micros time, std::optional<MarkId> mark, Word&& word) {
        for (const Micros edge : edges_) {
            const Micros distance = std::chrono::abs(time - edge);
            if (distance <= reach_ && (!found_ || distance < best_distance_)) {
                best_ = Snap{time, time - edge, word(), mark};
                best_distance_ = distance;
                found_ = true;
            }
        }
    }
    void offer(Micros time, const char* word) {
        offer(time, std::nullopt, [word] { return QString::fromLatin1(word); });
    }
    [[nodiscard]] std::optional<Snap> best() const { return found_ ? std::optional(best_) : std::nullopt; }

  private:
    std::span<const Micros> edges_;
    Micros reach_;
    Snap best_;
    Micros best_distance_{0};
    bool found_ = false;
};

void offer_cues(Nearest& nearest, const SnapPlaces& places, std::span<const Micros> edges, Micros reach,
                std::span<const CueId> without) {
    const auto name_of = [&](CueId id) {
        const Cue* cue = find(places.sequence, id);
        return cue == nullptr || cue->name.empty() ? QStringLiteral("a cue") : quoted(cue->name);
    };
    for (const Lane& lane : places.lanes.lanes()) {
        if (lane.kind != Lane::Kind::channel) {
            continue;
        }
        for (const Micros edge : edges) {
            places.cues.of(lane.channel).overlapping(edge - reach, edge + reach, [&](const PlacedCue& cue) {
                if (std::binary_search(without.begin(), without.end(), cue.id)) {
                    return;
                }
                nearest.offer(cue.begin, {}, [&] { return "start of " + name_of(cue.id); });
                nearest.offer(cue.end, {}, [&] { return "end of " + name_of(cue.id); });
            });
        }
    }
}

const char* word_for(MomentKind kind) {
    switch (kind) {
        case MomentKind::word:
            return "start of a word";
        case MomentKind::pause:
            return "end of a word";
        case MomentKind::loudest:
            return "loudest moment";
        case MomentKind::onset:
            break;
    }
    return "onset";
}

void offer_moments(Nearest& nearest, std::span<const SoundMoment> moments, std::span<const Micros> edges,
                   Micros reach) {
    for (const Micros edge : edges) {
        auto moment = std::ranges::lower_bound(moments, edge - reach, {}, &SoundMoment::time);
        for (; moment != moments.end() && moment->time <= edge + reach; ++moment) {
            nearest.offer(moment->time, word_for(moment->kind));
        }
    }
}

const char* word_for(Grid::Kind kind) {
    switch (kind) {
        case Grid::Kind::frames:
            return "frame";
        case Grid::Kind::beats:
            return "beat";
        case Grid::Kind::seconds:
            break;
    }
    return "grid";
}

std::optional<Snap> snap_to_grid(const SnapPlaces& places, std::span<const Micros> edges) {
    if (places.ticks.plain == 0) {
        return {};
    }
    for (const TickScale& scale : {places.ticks, TickScale{}}) {
        Nearest nearest(edges, places.view.length_of(grid_snap_px));
        for (const Micros edge : edges) {
            for (const Micros line : grid_beside(places.grid, scale, edge)) {
                nearest.offer(line, word_for(places.grid.kind));
            }
        }
        if (const auto best = nearest.best()) {
            return best;
        }
    }
    return {};
}

}  // namespace

std::optional<Snap> snap(const SnapPlaces& places, std::span<const Micros> edges,
                         const SnapWithout& without) {
    const Micros reach = places.view.length_of(snap_px);
    Nearest nearest(edges, reach);
    for (const Mark& mark : places.sequence.marks) {
        if (mark.id != without.mark) {
            nearest.offer(mark.time, mark.id, [&] { return "mark " + quoted(mark.name); });
        }
    }
    nearest.offer(places.playhead, "playhead");
    for (const SoundClip& clip : places.sequence.clips) {
        if (clip.id != without.clip) {
            nearest.offer(clip.start, "start of sound");
            nearest.offer(clip.start + clip.length, "end of sound");
        }
    }
    nearest.offer(Micros{0}, "start of sequence");
    nearest.offer(places.sequence.length, "end of sequence");
    offer_cues(nearest, places, edges, reach, without.cues);
    offer_moments(nearest, places.moments, edges, reach);
    const auto best = nearest.best();
    return best ? best : snap_to_grid(places, edges);
}

}  // namespace gasp
