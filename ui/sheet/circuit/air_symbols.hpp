// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "ui/sheet/circuit/sketch.hpp"

#include <optional>

namespace gasp {

// The symbols of ISO 1219-1 that a prop's air circuit needs: one square for each position of a valve, its
// ports on the one that it rests in, an arrow where air flows, a bar across a port that is shut, a zigzag for
// a spring, a rectangle with a diagonal for a coil, an open triangle for air. Drawn without power and without
// air, what comes first at the bottom. Ports are numbered as ISO 11727 has it: 1 supply, 2 and 4 outlets, 3
// and 5 exhausts.

inline constexpr double valve_square = 90.0;

struct CylinderPorts {
    QPointF cap;  ///< sends the rod out
    QPointF rod;
};
/// Centred on the middle of its barrel, its ports below. Cushions: adjustable ones at both ends.
CylinderPorts draw_cylinder(Sketch& sketch, QPointF centre, CylinderAction action, bool cushions);

struct ValvePorts {
    QPointF supply;                          ///< 1
    QPointF out;                             ///< 4 of a 5/2, 2 of a 3/2: sends the rod out
    std::optional<QPointF> back;             ///< 2 of a 5/2
    QPointF exhaust_of_out;                  ///< 5, or 3 of a 3/2
    std::optional<QPointF> exhaust_of_back;  ///< 3
};
/// Its two squares above and below `centre.y`, the one it rests in at the right of `centre.x`.
ValvePorts draw_valve(Sketch& sketch, QPointF centre, ValveKind kind, bool pilot);

/// At the end of an exhaust, pointing down.
void draw_exhaust(Sketch& sketch, QPointF from, bool silencer);

/// On an upright line, from `bottom` to `top`; the check valve of it at the left or the right.
void draw_flow_control(Sketch& sketch, QPointF bottom, QPointF top, bool meters_out, bool check_at_left);
/// On an upright line: lets air in from below, and out at its side, straight to the air around.
void draw_quick_exhaust(Sketch& sketch, QPointF bottom, QPointF top, bool exhaust_at_left);

void draw_compressor(Sketch& sketch, QPointF centre);   ///< its outlet at the right, 50 from the centre
void draw_receiver(Sketch& sketch, const QRectF& box);  ///< with its drain below
void draw_relief_valve(Sketch& sketch, QPointF bottom);
void draw_pressure_switch(Sketch& sketch, QPointF bottom);
void draw_gauge(Sketch& sketch, QPointF bottom);
/// By hand, held where it is put; drawn shut and vented. Port 1 below, 2 above.
void draw_hand_valve(Sketch& sketch, QPointF supply, QPointF outlet);
void draw_filter(Sketch& sketch, QPointF centre);     ///< on a level line, 45 to either side
void draw_regulator(Sketch& sketch, QPointF centre);  ///< likewise

}  // namespace gasp
