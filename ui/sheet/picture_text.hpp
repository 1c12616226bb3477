// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QColor>
#include <QFont>
#include <QRectF>
#include <QString>

#include <string_view>

class QPainter;

namespace gasp {

/// A name of unknown origin as it can stand in a picture: what is no letter, digit or sign becomes U+FFFD.
/// One that ends in letters written to the left ends with the mark that lets what follows stand at its right.
[[nodiscard]] QString shown(std::string_view name);

/// How the writing of a picture looks.
struct TextStyle {
    QFont font;
    QColor colour;
    Qt::Alignment align = Qt::AlignLeft | Qt::AlignVCenter;
};

[[nodiscard]] double text_width(const QFont& font, const QString& text);

/// One line within a box, cut with an ellipsis where it is too long; nothing where not even that has room.
void draw_text(QPainter& painter, const QRectF& box, const TextStyle& style, const QString& text);

}  // namespace gasp
