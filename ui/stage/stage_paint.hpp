// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/quantity.hpp"
#include "ui/stage/stage_state.hpp"

#include <QRectF>
#include <QString>

class QPainter;

namespace gasp {

/// Each of these draws one thing of the stage into a box, in the colours and type of the look worn now.

/// A channel's row: its sign, name, contact (open or closed), lamp, and "on" or "off".
void paint_channel(QPainter& painter, const QRectF& box, const StageChannel& channel);

/// An actuator: valve with its coils, cylinder and rod at the load's angle, and the figure on it.
void paint_actuator(QPainter& painter, const QRectF& box, const StageActuator& actuator);

/// What the receiver's dial shows; blank figures leave their part of it out.
struct GaugeFace {
    Figure receiver_kpa_gauge;
    Figure cut_in_kpa_gauge;
    Figure cut_out_kpa_gauge;
    bool filling = false;
    UnitSystem units = UnitSystem::metric;
};
void paint_gauge(QPainter& painter, const QRectF& box, const GaugeFace& face);

/// The loudspeaker with the level of what is heard, `level` 0..1 of full scale.
void paint_loudspeaker(QPainter& painter, const QRectF& box, double level, const QString& word);

/// Text on one line, cut with an ellipsis where it is too long.
void paint_text(QPainter& painter, const QRectF& box, int flags, const QString& text);

}  // namespace gasp
