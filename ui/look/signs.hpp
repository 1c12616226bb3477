// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/checks/finding.hpp"
#include "core/show/rig.hpp"

#include <QColor>
#include <QIcon>
#include <QRectF>
#include <QString>

class QPainter;

namespace gasp {

/// The sign of a kind of channel, drawn in strokes of `colour` within the largest square of `box`: valve a
/// travel curve, lamp rays, motor an arc, jaw a hinge, other a dot.
void paint_kind(QPainter& painter, const QRectF& box, ChannelKind kind, const QColor& colour);

/// The sign of a finding, filled: stop an octagon, warn a triangle, note a ring.
void paint_severity(QPainter& painter, const QRectF& box, Severity severity, const QColor& colour);

/// The same as icons, in the colours of the theme worn when they are painted.
[[nodiscard]] QIcon kind_icon(ChannelKind kind);
[[nodiscard]] QIcon severity_icon(Severity severity);

/// "valve", "lamp", "motor", "jaw", "other".
[[nodiscard]] QString kind_word(ChannelKind kind);

}  // namespace gasp
