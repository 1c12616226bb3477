// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/sheet/picture_page.hpp"

class QPainter;

namespace gasp {

// The parts of a picture, in the order in which they are painted. None needs clipping, which an SVG does not
// have.

void paint_head(QPainter& painter, const PicturePage& page);
void paint_lane_grounds(QPainter& painter, const PicturePage& page);
void paint_ruler(QPainter& painter, const PicturePage& page);
void paint_mark_lines(QPainter& painter, const PicturePage& page);
void paint_lanes(QPainter& painter, const PicturePage& page);
void paint_mark_flags(QPainter& painter, const PicturePage& page);
void paint_findings(QPainter& painter, const PicturePage& page);  ///< as pins above the ruler, and in words
void paint_legend(QPainter& painter, const PicturePage& page);

// Those of single lanes.
void paint_sound_lane(QPainter& painter, const PicturePage& page, const PictureLane& lane);
void paint_channel_lane(QPainter& painter, const PicturePage& page, const PictureLane& lane);
void paint_pressure_lane(QPainter& painter, const PicturePage& page, const QRectF& lane);

}  // namespace gasp
