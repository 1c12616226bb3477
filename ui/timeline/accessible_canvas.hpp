// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

class Canvas;

/// Lets screen readers see the lanes as a list of cues, each with its name, lane, start and length. Once is
/// enough.
void make_canvas_accessible();
/// Tells screen readers what the keys have come to: the first selected cue, else the mark or the clip.
void tell_selection(Canvas& canvas);

}  // namespace gasp
