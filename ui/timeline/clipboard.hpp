// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <QByteArray>

#include <optional>
#include <span>
#include <vector>

namespace gasp {

/// The kind of what the clipboard holds after a copy of cues: JSON of this program's own.
inline constexpr const char* cues_mime_type = "application/x-gaspworks-cues+json";

/// Cues with their starts on the ruler and the names of their channels, so that they can be pasted into
/// another show.
[[nodiscard]] QByteArray copied_cues(const Show& show, const Sequence& sequence, std::span<const CueId> ids);

/// The cues of a copy, the earliest beginning at `at`, untied. Those from one channel go onto `lane` where it
/// is of their kind; else each goes onto the channel of its own name and kind, and where there is none it is
/// left out. Empty when the data is not a copy of cues: it comes from the clipboard and nothing of it is
/// believed.
[[nodiscard]] std::vector<Cue> pasted_cues(const QByteArray& data, const Show& show, Micros at,
                                           std::optional<ChannelId> lane);

}  // namespace gasp
