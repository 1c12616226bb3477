// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/air/fitting/fitting.hpp"

#include <span>

namespace gasp {

/// Strokes timed in one way from one event should all be alike.
[[nodiscard]] bool alike(const TimedStroke& one, const TimedStroke& other);

/// Whether a stroke stands apart from those alike, three of them or more: further from their median than 3.5
/// times their spread, taken from the median of the distances (B. Iglewicz and D. C. Hoaglin, "How to Detect
/// and Handle Outliers", 1993, from memory), which a wrong one among them does not widen; at least
/// `stated_ms`.
[[nodiscard]] bool stands_apart(const TimedStroke& stroke, std::span<const TimedStroke> strokes,
                                double stated_ms);

}  // namespace gasp
