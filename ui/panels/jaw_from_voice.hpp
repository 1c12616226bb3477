// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "core/show/show.hpp"
#include "ui/editor/moments.hpp"

#include <cstddef>

namespace gasp {

struct JawCues {
    Edit edit;
    std::size_t cues = 0;
    double share = 0.0;  ///< of the voice's time in which the mouth is open, 0..1
};

/// Cues that open the jaw on a channel with the sound of the sequence. A valve's jaw is taken to be open half
/// way through its simulated stroke; any other takes the lead of the options. Channel and valve are not
/// switched faster than they bear. Error: nothing is heard, the channel is gone, options out of range.
[[nodiscard]] Result<JawCues> jaw_from_voice(const Show& show, const Sequence& sequence, ChannelId channel,
                                             Moments& moments);

}  // namespace gasp
