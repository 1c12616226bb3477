// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/look/palette.hpp"
#include "ui/look/type.hpp"

namespace gasp {

/// Dresses the whole program: palette, fonts, style sheet. Widgets that paint themselves ask look() each time
/// they paint and are repainted by Qt when the theme changes. Window thread. Requires: a QApplication.
void set_theme(Theme theme);

/// The theme worn now; dark until set_theme was called.
[[nodiscard]] Theme theme();

/// The colours worn now.
[[nodiscard]] const Palette& look();

}  // namespace gasp
