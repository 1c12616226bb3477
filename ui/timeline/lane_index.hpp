// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/edits.hpp"
#include "core/show/sequence.hpp"

#include <algorithm>
#include <optional>
#include <span>
#include <unordered_map>
#include <unordered_set>
#include <vector>

namespace gasp {

/// A cue as it lies on the ruler.
struct PlacedCue {
    Micros begin{0};
    Micros end{0};
    CueId id;
    bool operator==(const PlacedCue&) const = default;
};

/// The cues of one channel by their start, and how far each block of them reaches, so that those which
/// overlap a stretch are found without looking at the others.
class LaneCues {
  public:
    [[nodiscard]] std::span<const PlacedCue> all() const { return cues_; }

    /// Calls `visit(const PlacedCue&)` for each cue that overlaps [begin, end], in order of start. O(log n +
    /// n/64
    /// + those found).
    template <class Visit>
    void overlapping(Micros begin, Micros end, Visit&& visit) const {
        const std::size_t last = first_from(end + Micros{1});
        for (std::size_t block = 0; block * block_size < last; ++block) {
            if (reach_[block] < begin) {
                continue;
            }
            const std::size_t stop = std::min(last, (block + 1) * block_size);
            for (std::size_t i = block * block_size; i < stop; ++i) {
                if (cues_[i].end >= begin) {
                    visit(cues_[i]);
                }
            }
        }
    }

    void assign(std::vector<PlacedCue> cues);
    void insert(const PlacedCue& cue);
    void erase(const PlacedCue& cue);

  private:
    static constexpr std::size_t block_size = 64;
    [[nodiscard]] std::size_t first_from(Micros begin) const;
    void update_reach(std::size_t from);

    std::vector<PlacedCue> cues_;
    std::vector<Micros> reach_;
};

/// Where every cue of a sequence lies, by channel; kept up with edits at the cost of what they touch.
class LaneIndex {
  public:
    void rebuild(const Sequence& sequence);
    /// Brings the index up to `sequence`, which differs from what was indexed by `edit`, done or undone.
    /// Returns the channels whose cues changed.
    std::vector<ChannelId> follow(const Edit& edit, const Sequence& sequence);

    /// By how much cues that are placed by their strikes begin before them; those not named keep the lead
    /// they have, at first none. Returns the channels whose cues moved by it.
    std::vector<ChannelId> take_leads(const Sequence& sequence, std::span<const CueLead> leads);

    /// Empty for a channel without cues.
    [[nodiscard]] const LaneCues& of(ChannelId channel) const;
    /// Null when there is none of that id.
    [[nodiscard]] const PlacedCue* find(CueId id) const;
    [[nodiscard]] std::size_t size() const { return places_.size(); }

  private:
    struct Place {
        PlacedCue cue;
        ChannelId channel;
        std::optional<MarkId> mark;
    };
    void put(const Sequence& sequence, const Cue& cue);
    [[nodiscard]] PlacedCue placed(const Sequence& sequence, const Cue& cue) const;
    void sync(const Sequence& sequence, CueId id, std::unordered_set<ChannelId>& touched);

    std::unordered_map<ChannelId, LaneCues> lanes_;
    std::unordered_map<CueId, Place> places_;
    std::unordered_map<MarkId, std::unordered_set<CueId>> tied_;
    std::unordered_map<CueId, Micros> leads_;
};

}  // namespace gasp
