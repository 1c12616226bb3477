// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/error.hpp"
#include "core/units/quantity.hpp"

#include <QString>
#include <QStringList>

#include <span>
#include <vector>

namespace gasp {

// Points of a measured linkage as people write them: rod's travel and arm's slope, a row for each.

/// The rows of a text that was copied from a spreadsheet or a note: cells parted by tabs, else by semicolons,
/// else by blanks. Rows without anything are left out, and a first one without any figure (a heading) too.
[[nodiscard]] std::vector<QStringList> rows_of_text(const QString& text);

/// Error: names the row, counted from 1, with what is wrong in it: a cell that is blank or no figure, a
/// figure out of range, a travel that is not more than the one before. Rows without anything count and are
/// passed over.
[[nodiscard]] Result<std::vector<LinkagePoint>> read_points(std::span<const QStringList> rows,
                                                            UnitSystem units);

/// The cells of a point.
[[nodiscard]] QStringList cells_of(const LinkagePoint& point, UnitSystem units);

}  // namespace gasp
