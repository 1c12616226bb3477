// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/pack/pack.hpp"
#include "ui/sheet/picture_file.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QBuffer>
#include <QPageLayout>
#include <QPainter>
#include <QPdfWriter>

namespace gasp {

namespace {

constexpr int dots_per_inch = 254;  // a tenth of a millimetre each, in which pages are laid out

QPageLayout layout_of(const Pack& pack, int page) {
    const QSizeF upright = size_of(pack.style().paper) / 10.0;
    const QPageSize size(upright, QPageSize::Millimeter, QString(), QPageSize::ExactMatch);
    return {size, pack.landscape(page) ? QPageLayout::Landscape : QPageLayout::Portrait, QMarginsF(),
            QPageLayout::Millimeter};
}

}  // namespace

Result<std::string> pdf_of(const Pack& pack, const std::atomic<bool>& cancel,
                           const std::function<void(double)>& progress) {
    if (const std::optional<Error> error = picture_fonts_missing()) {
        return tl::unexpected(*error);
    }
    QBuffer bytes;
    bytes.open(QIODevice::WriteOnly);
    QPdfWriter writer(&bytes);
    writer.setResolution(dots_per_inch);
    writer.setTitle(shown(pack.content().show.name));
    writer.setCreator(QStringLiteral("Gaspworks"));
    writer.setPageLayout(layout_of(pack, 0));
    QPainter painter(&writer);
    for (int page = 0; page < pack.page_count(); ++page) {
        if (page > 0) {
            writer.setPageLayout(layout_of(pack, page));
            writer.newPage();
        }
        pack.paint(painter, page);
        if (progress) {
            progress((page + 1.0) / pack.page_count());
        }
        if (cancel) {
            return fail("the build pack was given up", {}, "Start it again");
        }
    }
    painter.end();
    return bytes.data().toStdString();
}

}  // namespace gasp
