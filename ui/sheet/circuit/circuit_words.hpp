// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/rig.hpp"
#include "core/units/quantity.hpp"

#include <QStringList>

// What stands beside the symbols of a circuit. Nobody outside this folder includes this.

namespace gasp {

/// "bore 40 mm"; nothing where the figure is blank.
struct FigureWords {
    UnitSystem units = UnitSystem::metric;

    [[nodiscard]] QString operator()(Quantity quantity, const Figure& value, const QString& before) const {
        return value ? before + QString::fromStdString(print_quantity(quantity, *value, units)) : QString();
    }
};

/// With commas between them; empty ones left out.
[[nodiscard]] inline QString joined(QStringList words) {
    words.removeAll(QString());
    return words.join(QStringLiteral(", "));
}

}  // namespace gasp
