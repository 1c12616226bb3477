// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/picture_file.hpp"

#include "ui/look/type.hpp"

#include <QBuffer>
#include <QFontMetricsF>
#include <QImage>
#include <QPainter>
#include <QSvgGenerator>

namespace gasp {

namespace {

QSize with_height(const TimelinePicture& picture, QSize size) {
    return {size.width(), size.height() > 0 ? size.height() : picture.height_for(size.width())};
}

}  // namespace

std::optional<Error> picture_fonts_missing() {
    // Without a font Qt paints boxes for letters, and its list of families need not be empty.
    if (QFontMetricsF(font(TypeSize::body)).inFont(QLatin1Char('g'))) {
        return std::nullopt;
    }
    return Error{
        "there is no font, and a picture without letters says nothing", {}, "Install fonts-dejavu-core"};
}

Result<std::string> png_of(const TimelinePicture& picture, QSize size) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    QImage image(with_height(picture, size), QImage::Format_RGB32);
    if (image.isNull()) {
        return fail("there is no memory for a picture of this size", {}, "Make it smaller");
    }
    QPainter painter(&image);
    picture.paint(painter, image.rect());
    painter.end();
    QBuffer bytes;
    if (!bytes.open(QIODevice::WriteOnly) || !image.save(&bytes, "PNG")) {
        return fail("the picture cannot be made into a PNG file", {}, "Make it smaller");
    }
    return bytes.data().toStdString();
}

Result<std::string> svg_of(const TimelinePicture& picture, QSize size) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    const QSize whole = with_height(picture, size);
    QBuffer bytes;
    QSvgGenerator generator;
    generator.setOutputDevice(&bytes);
    generator.setSize(whole);
    generator.setViewBox(QRect(QPoint(0, 0), whole));
    generator.setResolution(96);  // the pixels of CSS, in which SVG counts
    generator.setTitle(QStringLiteral("Timeline"));
    generator.setDescription(QStringLiteral("Made by Gaspworks"));
    QPainter painter(&generator);
    picture.paint(painter, QRectF(QPointF(0, 0), whole));
    painter.end();
    return bytes.data().toStdString();
}

}  // namespace gasp
