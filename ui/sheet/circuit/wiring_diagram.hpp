// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/quantity.hpp"
#include "ui/sheet/circuit/wiring_plan.hpp"

#include <QRectF>

#include <cstddef>
#include <vector>

class QPainter;

namespace gasp {

/// The wiring of a rig, drawn without power: each supply with its rails, between them a column for each
/// circuit with fuse, contact, terminals, wire, load and suppression. Sheets of one supply each, as many
/// columns as fit. Tenths of a millimetre.
class WiringDiagram {
  public:
    static constexpr double height = 1440.0;
    static constexpr double column = 275.0;
    static constexpr double side = 400.0;  ///< the supply, at the left

    struct Sheet {
        const Supply* supply = nullptr;
        std::vector<WiredChannel> circuits;
        std::size_t part = 0;  ///< of several of this supply, from 0
        std::size_t parts = 1;
    };

    /// `show` must outlive it.
    WiringDiagram(const Show& show, UnitSystem units) : show_(show), units_(units) {}

    /// For sheets of this width.
    [[nodiscard]] std::vector<Sheet> sheets(double width) const;
    /// At which each supply has one sheet.
    [[nodiscard]] double width_of_all() const;

    void paint(QPainter& painter, const QRectF& box, const Sheet& sheet) const;

  private:
    const Show& show_;
    UnitSystem units_;
};

}  // namespace gasp
