// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include "core/units/error.hpp"
#include "ui/sheet/timeline_picture.hpp"

#include <QSize>
#include <QString>

#include <functional>
#include <optional>
#include <string>

namespace gasp {

/// Empty when the program's fonts are there. Without any, Qt paints pictures without a letter and says
/// nothing. Requires: a QGuiApplication, as all painting of text.
[[nodiscard]] std::optional<Error> picture_fonts_missing();

/// The bytes of a PNG or SVG file of whatever is painted on a page of so many pixels.
/// Error: no fonts, or no memory for so many pixels.
[[nodiscard]] Result<std::string> png_painted(QSize size, const std::function<void(QPainter&)>& paint);
[[nodiscard]] Result<std::string> svg_painted(QSize size, const QString& title,
                                              const std::function<void(QPainter&)>& paint);

/// The same of a timeline. A height of 0 is the one its lanes need.
[[nodiscard]] Result<std::string> png_of(const TimelinePicture& picture, QSize size);
[[nodiscard]] Result<std::string> svg_of(const TimelinePicture& picture, QSize size);

}  // namespace gasp
