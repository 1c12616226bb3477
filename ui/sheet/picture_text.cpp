// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/picture_text.hpp"

#include <QFontMetricsF>
#include <QPainter>

namespace gasp {

namespace {

/// What joins letters, or keeps them apart, as Persian, Indian scripts and emoji are written.
bool joins(char32_t letter) {
    return letter == 0x200c || letter == 0x200d;
}

/// Whether it would draw a number that follows it to its other side, as Arabic and Hebrew letters do.
bool turns_what_follows(const QString& text) {
    bool turns = false;
    for (const char32_t letter : text.toUcs4()) {
        const QChar::Direction way = QChar::direction(letter);
        turns = way == QChar::DirR || way == QChar::DirAL || (turns && way != QChar::DirL);
    }
    return turns;
}

}  // namespace

QString shown(std::string_view name) {
    QString result;
    for (const char32_t letter :
         QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())).toUcs4()) {
        const bool plain =
            (QChar::isPrint(letter) && QChar::category(letter) != QChar::Other_Format) || joins(letter);
        result += plain ? QString::fromUcs4(&letter, 1) : QString(QChar::ReplacementCharacter);
    }
    constexpr char16_t left_to_right_mark = 0x200e;
    return turns_what_follows(result) ? result + QChar(left_to_right_mark) : result;
}

double text_width(const QFont& font, const QString& text) {
    return QFontMetricsF(font).horizontalAdvance(text);
}

void draw_text(QPainter& painter, const QRectF& box, const TextStyle& style, const QString& text) {
    const QFontMetricsF metrics(style.font);
    const QString cut = metrics.elidedText(text, Qt::ElideRight, box.width());
    if (cut.size() <= 1 && cut != text) {
        return;
    }
    const double width = metrics.horizontalAdvance(cut);
    double x = box.left();
    if ((style.align & Qt::AlignRight) != 0) {
        x = box.right() - width;
    } else if ((style.align & Qt::AlignHCenter) != 0) {
        x = box.center().x() - width / 2;
    }
    painter.setFont(style.font);
    painter.setPen(style.colour);
    painter.drawText(QPointF(x, box.center().y() + (metrics.ascent() - metrics.descent()) / 2), cut);
}

}  // namespace gasp
