// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp {

/// Lets screen readers see the lanes as a list of cues, each with its name, lane, start and length. Once is
/// enough.
void make_canvas_accessible();

}  // namespace gasp
