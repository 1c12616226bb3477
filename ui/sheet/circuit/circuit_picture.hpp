// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/show/show.hpp"
#include "core/units/error.hpp"
#include "core/units/quantity.hpp"

#include <QSizeF>
#include <QString>

#include <functional>
#include <string>

class QPainter;

namespace gasp {

/// A circuit on one sheet, however large, with its title: for a web page or a forum.
struct CircuitPicture {
    QString title;
    QSizeF size;  ///< tenths of a millimetre
    std::function<void(QPainter&)> paint;
};

/// `show` must outlive them. Error: the rig has no actuator, or no channel, to draw.
[[nodiscard]] Result<CircuitPicture> air_picture(const Show& show, UnitSystem units);
[[nodiscard]] Result<CircuitPicture> wiring_picture(const Show& show, UnitSystem units);

/// The bytes of a file of that width, black on white. Error: as png_painted.
[[nodiscard]] Result<std::string> png_of(const CircuitPicture& picture, int width_px);
[[nodiscard]] Result<std::string> svg_of(const CircuitPicture& picture, int width_px);

}  // namespace gasp
