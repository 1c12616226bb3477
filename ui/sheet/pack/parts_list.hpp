// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/quantity.hpp"

#include <QString>
#include <QStringList>

#include <vector>

namespace gasp {

struct Part {
    QString name;
    QString size;  ///< in the units people use; what is blank is left out
    double quantity = 1.0;
    bool length = false;        ///< the quantity is a length in m; else a count
    bool planned = true;        ///< false: not in the rig, but usual
    QStringList used_for = {};  ///< figures, channels
};

struct PartsGroup {
    QString title;
    std::vector<Part> parts;
};

/// Everything the rig describes, those of one name and size together, in the order of the rig.
[[nodiscard]] std::vector<PartsGroup> parts_of(const Show& show, UnitSystem units);

}  // namespace gasp
