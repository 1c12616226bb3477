// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/editor/moments.hpp"
#include "ui/timeline/view_transform.hpp"

#include <span>

class QPainter;

namespace gasp {

/// Faintly, over the sound: a word as a line whose foot points into it, at its end likewise; an onset as a
/// short tick; the loudest moment as a wedge at the top. Logical pixels; moments by time; O(those in sight).
void paint_moments(QPainter& painter, std::span<const SoundMoment> moments, const ViewTransform& view,
                   double top, double bottom);

}  // namespace gasp
