// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "core/sound/jaw_score.hpp"
#include "ui/editor/moments.hpp"

#include <cstddef>
#include <optional>

namespace gasp {

struct JawCues {
    Edit edit;
    std::size_t cues = 0;
    JawScore score;  ///< of the channel as it is with these cues
};

/// Cues that open the jaw on a channel with the sound of the sequence. A valve's jaw is taken to be open half
/// way through its simulated stroke; any other takes the lead of the options. Channel and valve are not
/// switched faster than they bear. Error: nothing is heard, the channel is gone, options out of range.
[[nodiscard]] Result<JawCues> jaw_from_voice(const Show& show, const Sequence& sequence, ChannelId channel,
                                             Moments& moments);

/// How the mouth on a channel goes with the sound of the sequence as it is; empty while nothing was listened
/// to, or where the channel has no cues.
[[nodiscard]] std::optional<JawScore> score_of_jaw(const Show& show, const Sequence& sequence,
                                                   ChannelId channel, Moments& moments);

}  // namespace gasp
