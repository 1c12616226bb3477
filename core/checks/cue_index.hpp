// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/cue_fault.hpp"
#include "core/schedule/cue_spans.hpp"

#include <cstddef>
#include <optional>
#include <vector>

namespace gasp {

/// The cues of a sequence kept in order on each channel, so that all faults among them come out in one walk,
/// and after one cue moved only those near it are looked for again. Holds no reference to the show; an edit
/// of the rig or of the sequence's length makes it stale.
class CueIndex {
  public:
    CueIndex(const Show& show, const Sequence& sequence);
    CueIndex(const Show& show, const Sequence& sequence, SequenceSpans spans);  ///< with its cue_spans

    /// Every fault, by channel. O(cues + flashes).
    [[nodiscard]] std::vector<CueFault> faults() const;

    /// What a change alters: the faults before, less `gone`, with `come` added, are the faults after. A fault
    /// that stays may stand in both.
    struct Recheck {
        std::vector<CueFault> gone;
        std::vector<CueFault> come;
    };

    /// Takes a cue out as it was and puts it in as it is; empty `before` adds it, empty `after` removes it.
    /// Cost: one shift of the cues after it on its channel, and a walk over those it hangs together with.
    Recheck update(const std::optional<StartedCue>& before, const std::optional<StartedCue>& after);

  private:
    struct Lane {
        Contact contact = Contact::normally_open;
        DwellLimits limits;
        std::vector<std::size_t> exclusive;  ///< places of the channels it excludes
        std::vector<Micros> reach;  ///< for each span, the latest end up to it; made at the first change
    };
    /// The dwells around a stretch of time, with the one before them.
    struct Around {
        std::optional<OwnedDwell> before;
        std::vector<OwnedDwell> dwells;
        bool to_the_end = false;  ///< no dwell comes after these
    };

    [[nodiscard]] std::optional<std::size_t> place_of(ChannelId channel) const;
    void make_ready(std::size_t place);
    [[nodiscard]] bool begins_cluster(std::size_t place, std::size_t index) const;
    [[nodiscard]] std::size_t cluster_begin(std::size_t place, std::size_t index) const;
    [[nodiscard]] std::size_t cluster_end(std::size_t place, std::size_t index) const;
    void append_cluster(std::size_t place, std::size_t first, std::size_t last,
                        std::vector<OwnedDwell>& dwells) const;
    [[nodiscard]] std::optional<OwnedDwell> dwell_before(std::size_t place, std::size_t index) const;
    [[nodiscard]] std::size_t past_next_dwell(std::size_t place, std::size_t index) const;
    [[nodiscard]] Around around(std::size_t place, Micros begin, Micros end) const;
    [[nodiscard]] std::vector<OwnedDwell> powered(std::size_t place, Around around) const;
    Around append_own_faults(std::size_t place, std::size_t first, std::size_t last,
                             std::vector<CueFault>& faults) const;
    void append_faults(std::size_t place, std::size_t first, std::size_t last,
                       std::vector<CueFault>& faults) const;
    void repair_reach(std::size_t place, std::size_t changed);
    void take_out(std::size_t place, const CueSpan& span, Recheck& recheck);
    void put_in(std::size_t place, const CueSpan& span, Recheck& recheck);
    void note_flashes(const StartedCue& started, bool added);

    SequenceSpans all_;
    std::vector<Lane> lanes_;
    Micros length_{0};
};

}  // namespace gasp
