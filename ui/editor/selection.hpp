// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/ids.hpp"

#include <optional>
#include <vector>

namespace gasp {

/// What is selected: cues, or a mark, or a clip of the sequence looked at, and the lane that was last
/// clicked.
struct Selection {
    std::vector<CueId> cues;  ///< in order of id
    std::optional<MarkId> mark;
    std::optional<ClipId> clip;
    std::optional<ChannelId> channel;

    [[nodiscard]] bool has(CueId id) const;
    [[nodiscard]] bool empty() const { return cues.empty() && !mark && !clip; }
    bool operator==(const Selection&) const = default;
};

}  // namespace gasp
