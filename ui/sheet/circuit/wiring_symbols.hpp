// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "ui/sheet/circuit/sketch.hpp"

namespace gasp {

// The symbols of IEC 60617 that a prop's wiring needs, upright, current from above, each on a line from `top`
// down; each gives where it ends. Contacts are drawn without power; their terminals are numbered as
// EN 50005 has it: 13 and 14 of one that makes, 11 and 12 of one that breaks; those of a coil A1 and A2.

QPointF draw_fuse(Sketch& sketch, QPointF top);
/// A make or a break contact; in a frame of chain lines where a transistor does it.
QPointF draw_contact(Sketch& sketch, QPointF top, Contact contact, SwitchedBy by);
/// The load with its suppression at its right.
QPointF draw_load(Sketch& sketch, QPointF top, LoadKind kind, Suppression suppression);
void draw_terminal(Sketch& sketch, QPointF at);

/// How high each is.
inline constexpr double fuse_high = 90.0;
inline constexpr double contact_high = 130.0;
inline constexpr double load_high = 190.0;

}  // namespace gasp
