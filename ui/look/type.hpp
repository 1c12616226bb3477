// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QFont>
#include <QString>

namespace gasp {

/// One family in four sizes on a scale of 1.2.
enum class TypeSize {
    small,  ///< 11 px: units, second lines, ruler
    body,   ///< 13 px: everything else
    head,   ///< 16 px: headings of panels, figures that are read at a glance
    clock,  ///< 19 px: the clock of the transport
};

/// The step of the layout: margins and gaps are 1 or 2 of it, or half of one inside a row.
inline constexpr int grid_px = 8;
/// Height of a row that can be clicked.
inline constexpr int row_px = 24;

/// The program's font; its digits are all of one width, so that figures stand still while they change.
[[nodiscard]] QFont font(TypeSize size, bool strong = false);

[[nodiscard]] int font_px(TypeSize size);

}  // namespace gasp
