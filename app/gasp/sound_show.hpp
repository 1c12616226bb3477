// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "app/gasp/options.hpp"
#include "app/gasp/verbs.hpp"

namespace gasp {

/// What `gasp sound` says of a show: the mix of each sequence and each of its clips, and with a folder,
/// writes the mixes there for a sound player.
[[nodiscard]] Result<Outcome> sound_of_show(const SoundOptions& options);

}  // namespace gasp
