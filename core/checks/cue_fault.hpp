// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/schedule/cue_spans.hpp"

#include <array>
#include <compare>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// What can be wrong with cues beside each other; each has its rule and its words in the file of its check.
enum class CueFaultKind : std::uint8_t {
    overlap,      ///< overlap.cpp
    valve_on,     ///< valve_dwell.cpp: power on the coil too briefly
    valve_off,    ///< valve_dwell.cpp: no power too briefly
    channel_on,   ///< channel_dwell.cpp: the same for a relay or lamp
    channel_off,  ///< channel_dwell.cpp
    exclusive,    ///< exclusive.cpp
};

/// One thing wrong with cues, found and compared without a word being formed: an index of 100 000 cues deals
/// in these, and only what is shown becomes a Finding.
struct CueFault {
    CueFaultKind kind = CueFaultKind::overlap;
    ChannelId channel;
    ChannelId other_channel;  ///< of exclusive
    CueId cue;
    CueId other_cue;  ///< 0 where there is none
    Micros time{0};
    Micros figure{0};
    Micros limit{0};
    bool resting = false;  ///< the stretch found is a rest of the output, between two cues or two flashes
    auto operator<=>(const CueFault&) const = default;
};

/// The finding that says it. The fault must be of this show and sequence.
[[nodiscard]] Finding worded(const Show& show, const Sequence& sequence, const CueFault& fault);

/// A shortest time for one state of an output.
struct DwellLimit {
    CueFaultKind kind = CueFaultKind::channel_on;
    Micros shortest{0};
};

/// The limits a channel's dwells are held against, by the state of its output; blank ones are left out.
struct DwellLimits {
    std::vector<DwellLimit> driven;
    std::vector<DwellLimit> resting;
};

/// From the limits on power to the load, through the contact, to the output.
[[nodiscard]] DwellLimits dwell_limits(const Show& show, const Channel& channel);

/// Appends the overlaps among spans that hang together: one for each span that begins before those before it
/// end.
void find_overlaps(ChannelId channel, std::span<const CueSpan> together, std::vector<CueFault>& faults);

/// Notes a stretch that is shorter than some of the limits; of stretches one cue has in a row, the shortest.
class ShortestOfEachCue {
  public:
    ShortestOfEachCue(ChannelId channel, std::span<const DwellLimit> limits, bool resting);

    void hold(const Dwell& stretch, CueId cue, CueId other, std::vector<CueFault>& faults) {
        if (stretch.end - stretch.begin < longest_limit_) {
            note(stretch, cue, other, faults);
        }
    }

  private:
    void note(const Dwell& stretch, CueId cue, CueId other, std::vector<CueFault>& faults);

    ChannelId channel_;
    std::span<const DwellLimit> limits_;
    Micros longest_limit_{0};
    bool resting_;
    std::array<std::optional<std::size_t>, 6> last_;  ///< the last fault of each kind
};

/// Finds the dwells of a channel, and the rests before them, that are shorter than a limit: the shortest of
/// each cue. Keeps a reference to the limits.
class ShortDwells {
  public:
    /// `before` is the dwell before the first to come, if any.
    ShortDwells(ChannelId channel, const DwellLimits& limits, const std::optional<OwnedDwell>& before);

    /// The next dwell in time; appends what is wrong with it.
    void take(const OwnedDwell& dwell, std::vector<CueFault>& faults) {
        resting_.hold({rest_begin_, dwell.dwell.begin}, dwell.first, cue_before_, faults);
        driven_.hold(dwell.dwell, dwell.first, dwell.last, faults);
        rest_begin_ = dwell.dwell.end;
        cue_before_ = dwell.last;
    }

  private:
    ShortestOfEachCue driven_;
    ShortestOfEachCue resting_;
    Micros rest_begin_;  ///< long ago where there is no dwell before
    CueId cue_before_;
};

}  // namespace gasp
