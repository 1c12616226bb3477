// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"

#include <QString>

#include <vector>

namespace gasp {

/// A channel's circuit with the numbers it bears on the chart and in the drawing.
struct WiredChannel {
    const Channel* channel = nullptr;
    int number = 0;  ///< of circuit and fuse, from 1 in the order of the rig

    [[nodiscard]] QString fuse() const { return QStringLiteral("F%1").arg(number); }
    /// Where the wire to the load begins, and where the one back ends.
    [[nodiscard]] QString out_terminal() const { return QStringLiteral("X%1").arg(2 * number - 1); }
    [[nodiscard]] QString return_terminal() const { return QStringLiteral("X%1").arg(2 * number); }
};

/// The circuits of one supply; null: of those that name none.
struct WiringGroup {
    const Supply* supply = nullptr;
    std::vector<WiredChannel> circuits;
};

/// In the order of the supplies, those without one last; supplies without a circuit are there as well. The
/// show must outlive it.
[[nodiscard]] std::vector<WiringGroup> wiring_of(const Show& show);

}  // namespace gasp
