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

Result<std::string> png_painted(QSize size, const std::function<void(QPainter&)>& paint) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    QImage image(size, QImage::Format_RGB32);
    if (image.isNull()) {
        return fail("there is no memory for a picture of this size", {}, "Make it smaller");
    }
    QPainter painter(&image);
    paint(painter);
    painter.end();
    QBuffer bytes;
    if (!bytes.open(QIODevice::WriteOnly) || !image.save(&bytes, "PNG")) {
        return fail("the picture cannot be made into a PNG file", {}, "Make it smaller");
    }
    return bytes.data().toStdString();
}

Result<std::string> svg_painted(QSize size, const QString& title,
                                const std::function<void(QPainter&)>& paint) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    QBuffer bytes;
    QSvgGenerator generator;
    generator.setOutputDevice(&bytes);
    generator.setSize(size);
    generator.setViewBox(QRect(QPoint(0, 0), size));
    generator.setResolution(96);  // the pixels of CSS, in which SVG counts
    generator.setTitle(title);
    generator.setDescription(QStringLiteral("Made by Gaspworks"));
    QPainter painter(&generator);
    paint(painter);
    painter.end();
    return bytes.data().toStdString();
}

Result<std::string> png_of(const TimelinePicture& picture, QSize size) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    const QSize whole = with_height(picture, size);
    return png_painted(whole, [&](QPainter& painter) { picture.paint(painter, {QPointF(0, 0), whole}); });
}

Result<std::string> svg_of(const TimelinePicture& picture, QSize size) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    const QSize whole = with_height(picture, size);
    return svg_painted(whole, QStringLiteral("Timeline"), [&](QPainter& painter) {
        picture.paint(painter, {QPointF(0, 0), whole});
    });
}

}  // namespace gasp
