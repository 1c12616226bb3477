// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/schedule/sequence_run.hpp"
#include "ui/timeline/scene.hpp"

#include <QString>

#include <optional>

namespace gasp {

/// The strike of a valve cue: where the cue lies now, with the lead that was last worked out.
struct SeenStrike {
    Micros start{0};                        ///< the output is driven
    Micros lead{0};                         ///< from there to the strike
    Micros soonest{0};                      ///< of the lead, at the favourable end of every uncertain input
    std::optional<Micros> latest;           ///< at the unfavourable one; none where it may not strike at all
    bool measured = false;                  ///< strokes were timed and fitted
    bool simulated = false;                 ///< else by the stated stroke time
    bool ahead = false;                     ///< of its own stroke alone: the run has not followed yet
    double receiver_kpa_gauge = 0.0;        ///< at the strike; where simulated
    double working_kpa_gauge = 0.0;         ///< likewise, in the chamber that drives it
    StrikeFault fault = StrikeFault::none;  ///< of a cue that is placed by its strike
    std::optional<Micros> earliest;         ///< with a fault: when it could strike

    [[nodiscard]] Micros time() const { return start + lead; }
};

/// None for a cue that moves no figure, or whose figure does not strike.
[[nodiscard]] std::optional<SeenStrike> seen_strike(const Scene& scene, CueId cue);

/// Where its handle is drawn, on the lanes; empty when there is none.
[[nodiscard]] QRectF handle_of(const Scene& scene, CueId cue);

/// From the valve to the strike of its figure's first stroke after the air is let on, which is none of the
/// sequence's; of a cue that sends a figure out.
[[nodiscard]] std::optional<Micros> first_after_air_on(const Scene& scene, const Cue& cue);

/// Lines about it: when, how sure, at what pressures.
[[nodiscard]] QString strike_text(const Scene& scene, const Cue& cue, const SeenStrike& strike);

/// Puts the strike of a cue at a time, or on a mark: the cue is from then on placed by its strike.
[[nodiscard]] Edit place_strike(const Show& show, SequenceId sequence, CueId cue, Micros time,
                                std::optional<MarkId> mark);

}  // namespace gasp
