// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/timeline/scene.hpp"

#include <QRect>
#include <QRegion>

class QPainter;

namespace gasp::overlay {

// What lies over the lanes and is not kept in their picture: snap line, read-out, rubber band, the light on a
// place that was jumped to, and the words of an empty timeline.

/// Where a drag's signs are painted.
[[nodiscard]] QRegion region(const Scene& scene, const QRect& lanes);

void paint(QPainter& painter, const Scene& scene, const QRect& lanes, bool focus);

}  // namespace gasp::overlay
