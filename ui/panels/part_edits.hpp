// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/edit.hpp"
#include "ui/panels/part_fields.hpp"

#include <optional>

namespace gasp {

// Edits of the rig's lists as the list of parts asks for them. Each is empty where it cannot be done.

/// A new part of a kind, its figures blank and its name free: "Channel", "Channel 2".
[[nodiscard]] Edit add_part(const Show& show, PartKind kind);
/// A twin at the end of its kind under a free name; a channel's twin has no output, for that is taken.
[[nodiscard]] Edit duplicate_part(const Show& show, Part part);
[[nodiscard]] Edit remove_part(const Show& show, Part part);
/// One place up (-1) or down (+1) among its kind.
[[nodiscard]] Edit move_part(const Show& show, Part part, int by);

/// The part an edit of add_part or duplicate_part puts.
[[nodiscard]] std::optional<Part> part_put_by(const Edit& edit);

/// The edit with a sentence that says which field of which part it sets.
[[nodiscard]] Edit named_after(Edit edit, const QString& label, const QString& part);

}  // namespace gasp
