// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/sizing/sizing.hpp"

#include <QVariantMap>

namespace gasp {

// What a sizing task is between two sessions on this machine.

/// What is out of range, or no figure, is left blank; a linkage whose points are spoiled is left out.
[[nodiscard]] SizingTask remembered_task(const QVariantMap& kept);
[[nodiscard]] QVariantMap to_remember(const SizingTask& task);

/// `task` with what an actuator of a show says of it; what the rig leaves blank stays as it is wanted. The
/// linkage is the actuator's, or none.
[[nodiscard]] SizingTask taken_from(const Show& show, const Actuator& actuator, const SizingTask& task);

}  // namespace gasp
