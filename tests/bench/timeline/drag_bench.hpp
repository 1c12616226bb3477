// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

namespace gasp::bench {

/// A valve cue dragged among 500 in a window, against a repaint of all lanes: each step from the mouse's move
/// to the picture on the screen. False where a bar is short or the travel did not follow.
[[nodiscard]] bool drag_among_500();

}  // namespace gasp::bench
