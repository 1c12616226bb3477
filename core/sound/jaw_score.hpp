// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/sequence.hpp"
#include "core/sound/listening.hpp"

#include <optional>
#include <span>

namespace gasp {

/// What is heard along a sequence: the envelopes of its clips' files where they are played, with gain and
/// fades, their powers added up. `of_clips` are those of sequence.clips in order; null where one is not
/// known.
[[nodiscard]] Envelope heard_along(const Sequence& sequence, std::span<const Envelope* const> of_clips);

/// How a mouth goes with a voice.
struct JawScore {
    double open_share = 0.0;       ///< of the time in which the voice is loud enough: open at least half way
    std::optional<double> lag_ms;  ///< by how much the mouth comes after the voice; empty where neither moves
    double likeness = 0.0;         ///< their correlation at that lag, -1 to 1
};

/// `opening` is how far the mouth is open, 0 to 1, at each step of the envelope. Loud enough is what comes
/// within `open_db` of the loudest moment. The lag is where the cross-correlation of opening and level (in
/// dB, from 40 below the loudest moment up) is largest within 400 ms either way.
[[nodiscard]] JawScore jaw_score(const Envelope& heard, std::span<const float> opening, double open_db);

}  // namespace gasp
