// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <compare>
#include <cstdint>
#include <functional>

namespace gasp {

/// The name by which one thing of a show is meant everywhere outside the show itself: in cues, edits,
/// findings, selections. Never reused within a show; 0 is nobody.
template <class Tag>
struct Id {
    std::uint32_t value = 0;
    auto operator<=>(const Id&) const = default;  // NOLINT(modernize-use-nullptr): misread by LLVM 14
};

using ActuatorId = Id<struct ActuatorTag>;
using ChannelId = Id<struct ChannelTag>;
using BoardId = Id<struct BoardTag>;
using SupplyId = Id<struct SupplyTag>;
using SequenceId = Id<struct SequenceTag>;
using ClipId = Id<struct ClipTag>;
using MarkId = Id<struct MarkTag>;
using CueId = Id<struct CueTag>;

}  // namespace gasp

template <class Tag>
struct std::hash<gasp::Id<Tag>> {
    std::size_t operator()(gasp::Id<Tag> id) const noexcept { return std::hash<std::uint32_t>{}(id.value); }
};
