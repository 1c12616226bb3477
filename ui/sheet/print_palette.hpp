// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "ui/look/palette.hpp"

namespace gasp {

/// The light palette with paper for its grounds and black for its words: for print.
[[nodiscard]] const Palette& print_palette();

}  // namespace gasp
