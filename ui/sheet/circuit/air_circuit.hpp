// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/quantity.hpp"

#include <QRectF>

#include <cstddef>

class QPainter;

namespace gasp {

/// The air circuit of a rig, drawn: the plant at the bottom, above it a column for each actuator, wherever
/// they fit side by side; on paper they go on from sheet to sheet. Tenths of a millimetre.
class AirCircuit {
  public:
    static constexpr double height = 1440.0;
    static constexpr double least_column = 600.0;
    static constexpr double least_width = 2060.0;  ///< of the plant

    /// `show` must outlive it.
    AirCircuit(const Show& show, UnitSystem units) : show_(show), units_(units) {}

    [[nodiscard]] std::size_t columns() const { return show_.rig.actuators.size(); }
    /// How many columns a sheet of this width has room for; at least one.
    [[nodiscard]] static std::size_t columns_in(double width);
    /// Sheets of so many columns; at least one.
    [[nodiscard]] std::size_t sheets(std::size_t columns_each) const;
    /// Of one sheet with all columns.
    [[nodiscard]] double width_of_all() const;

    /// A sheet, from 0, of so many columns each, at the top left of a box.
    void paint(QPainter& painter, const QRectF& box, std::size_t sheet, std::size_t columns_each) const;

  private:
    const Show& show_;
    UnitSystem units_;
};

}  // namespace gasp
