// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/sheet/print_type.hpp"

#include <QTextLayout>
#include <QTextOption>

namespace gasp {

namespace {

std::size_t index_of(const PrintFace& face) {
    return 2 * static_cast<std::size_t>(face.size) + (face.strong ? 1 : 0);
}

/// The text as it may be broken: a figure and its unit stay together, though the page has a plain space
/// there.
QString with_units_kept(const QString& text) {
    QString result = text;
    for (qsizetype i = 1; i + 1 < text.size(); ++i) {
        if (text[i] == ' ' && text[i - 1].isDigit() && (text[i + 1].isLetter() || text[i + 1] == '%')) {
            result[i] = QChar::Nbsp;
        }
    }
    return result;
}

}  // namespace

QSizeF size_of(Paper paper) {
    // ISO 216 A4, and ANSI/ASME Y14.1 size A.
    return paper == Paper::a4 ? QSizeF(2100, 2970) : QSizeF(2159, 2794);
}

int print_px(PrintSize size) {
    switch (size) {
        case PrintSize::small:
            return 25;
        case PrintSize::body:
            return 30;
        case PrintSize::head:
            return 41;
        case PrintSize::title:
            break;
    }
    return 71;
}

double print_line(PrintSize size) {
    return print_px(size) * 1.36;
}

QFont print_font(PrintSize size, bool strong) {
    QFont result;
    result.setFamilies({QStringLiteral("DejaVu Sans")});
    result.setPixelSize(print_px(size));
    result.setBold(strong);
    result.setStyleHint(QFont::SansSerif);
    result.setHintingPreference(QFont::PreferNoHinting);
    // Joined letters are not found by who searches for them; Qt joins none that are spaced.
    result.setLetterSpacing(QFont::AbsoluteSpacing, 0.02);
    return result;
}

QColor print_ink(bool soft) {
    return soft ? QColor(0x55, 0x55, 0x55) : QColor(Qt::black);
}

QColor print_rule() {
    return {0xb4, 0xb4, 0xb4};
}

PrintMeasure::PrintMeasure() {
    for (std::size_t size = 0; size < print_sizes; ++size) {
        for (const bool strong : {false, true}) {
            const PrintFace face{static_cast<PrintSize>(size), strong};
            Style& one = styles_[index_of(face)];
            one.font = print_font(face.size, strong);
            one.metrics.emplace(one.font);
        }
    }
}

PrintMeasure::Style& PrintMeasure::style(const PrintFace& face) {
    return styles_[index_of(face)];
}

double PrintMeasure::width(const PrintFace& face, const QString& text) {
    if (text.isEmpty()) {
        return 0.0;
    }
    Style& one = style(face);
    const auto known = one.widths.constFind(text);
    if (known != one.widths.constEnd()) {
        return *known;
    }
    return *one.widths.insert(text, one.metrics->horizontalAdvance(text));
}

double PrintMeasure::ascent(const PrintFace& face) const {
    return styles_[index_of(face)].metrics->ascent();
}

double PrintMeasure::descent(const PrintFace& face) const {
    return styles_[index_of(face)].metrics->descent();
}

QString PrintMeasure::cut(const PrintFace& face, const QString& text, double width_given) {
    if (width(face, text) <= width_given) {
        return text;
    }
    const QString cut = style(face).metrics->elidedText(text, Qt::ElideRight, width_given);
    return cut.isEmpty() ? QString(QChar(0x2026)) : cut;
}

QStringList PrintMeasure::lines(const PrintFace& face, const QString& text, double width_given,
                                int most_lines) {
    if (most_lines <= 1 || width(face, text) <= width_given) {
        return {cut(face, text, width_given)};
    }
    QTextOption option;
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    QTextLayout layout(with_units_kept(text), style(face).font);
    layout.setTextOption(option);
    layout.beginLayout();
    QStringList result;
    for (QTextLine line = layout.createLine(); line.isValid(); line = layout.createLine()) {
        line.setLineWidth(width_given);
        if (result.size() + 1 == most_lines) {
            result << cut(face, text.mid(line.textStart()), width_given);
            break;
        }
        result << text.mid(line.textStart(), line.textLength()).trimmed();
    }
    layout.endLayout();
    return result;
}

}  // namespace gasp
