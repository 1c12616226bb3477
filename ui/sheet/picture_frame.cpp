// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/show/fields.hpp"
#include "core/units/rounded.hpp"
#include "ui/look/signs.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>

#include <algorithm>
#include <array>

namespace gasp {

namespace {

constexpr std::array severities{Severity::stop, Severity::warn, Severity::note};

QString word_of(Severity severity) {
    const std::string_view text = word(severity);
    return QString::fromLatin1(text.data(), static_cast<qsizetype>(text.size()));
}

QFont title_font() {
    QFont title = font(TypeSize::clock, true);
    title.setPixelSize(24);
    return title;
}

QString subtitle(const PicturePage& page) {
    const Sequence& sequence = page.content.sequence;
    const std::string_view kind = sequence_kind_labels()[static_cast<std::size_t>(sequence.kind)];
    QString text = shown(sequence.name) + ", " + shown(kind).toLower() + ", " +
                   QString::fromStdString(print_duration(sequence.length));
    const auto& air = page.content.air.run;
    if (air && !air->strokes.empty()) {
        text += ", " +
                QString::fromStdString(print_rounded(Quantity::free_air, air->free_air_l, page.style.units)) +
                " of free air";
    }
    return text;
}

/// Sign, number and word of each severity, set from the right edge; the left end of it all.
double paint_counts(QPainter& painter, const PicturePage& page) {
    const TextStyle style{font(TypeSize::head), page.colours.text};
    double right = page.size.width() - PicturePage::margin;
    for (const Severity severity : {Severity::note, Severity::warn, Severity::stop}) {
        const auto count = std::ranges::count(page.content.findings, severity, &Finding::severity);
        const QString text = QString::number(count) + ' ' + word_of(severity);
        const double width = text_width(style.font, text) + 1;
        draw_text(painter, {right - width, page.head.top(), width, page.head.height()}, style, text);
        right -= width + 24;
        paint_severity(painter, {right, page.head.center().y() - 9, 18, 18}, severity,
                       page.colours.severity(severity));
        right -= 20;
    }
    return right;
}

/// An entry of the legend; the place behind it.
template <class PaintSign>
double paint_entry(QPainter& painter, const PicturePage& page, double x, const QString& word,
                   const PaintSign& paint) {
    const TextStyle style{font(TypeSize::small), page.colours.text};
    const double middle = page.legend.center().y();
    paint(QRectF(x, middle - 7, 22, 14));
    const double width = text_width(style.font, word) + 1;
    draw_text(painter, {x + 28, page.legend.top(), width, page.legend.height()}, style, word);
    return x + 28 + width + 18;
}

double paint_kinds(QPainter& painter, const PicturePage& page, double x) {
    for (const ChannelKind kind :
         {ChannelKind::valve, ChannelKind::lamp, ChannelKind::motor, ChannelKind::jaw, ChannelKind::other}) {
        if (std::ranges::find(page.content.show.rig.channels, kind, &Channel::kind) ==
            page.content.show.rig.channels.end()) {
            continue;
        }
        x = paint_entry(painter, page, x, kind_word(kind), [&](const QRectF& box) {
            painter.setPen(QPen(page.colours.kind_edge(kind), 1));
            painter.setBrush(page.colours.kind(kind));
            painter.drawRoundedRect(box, 3, 3);
            paint_kind(painter, box.adjusted(4, 1, -4, -1), kind, page.colours.on_kind(kind));
        });
    }
    return x;
}

double paint_line_entry(QPainter& painter, const PicturePage& page, double x, const QString& word,
                        const QColor& colour) {
    return paint_entry(painter, page, x, word, [&](const QRectF& box) {
        painter.setPen(QPen(colour, 2));
        painter.drawLine(QPointF(box.left(), box.center().y()), QPointF(box.right(), box.center().y()));
    });
}

QString travel_words(const SequenceAir& air) {
    if (air.bands.empty()) {
        return QStringLiteral("travel of the figure");
    }
    return std::ranges::all_of(air.bands, &StrokeBand::measured)
               ? QStringLiteral("travel of the figure and its spread")
               : QStringLiteral("travel of the figure and its spread, not measured");
}

}  // namespace

void paint_head(QPainter& painter, const PicturePage& page) {
    painter.fillRect(QRectF(QPointF(0, 0), page.size), page.colours.ground);
    painter.fillRect(page.head, page.colours.raised);
    painter.fillRect(QRectF(0, page.head.bottom() - 2, page.head.width(), 2), page.colours.brass);
    const double right = paint_counts(painter, page);
    const double left = PicturePage::margin;
    const QString name = page.content.show.name.empty() ? QStringLiteral("Show without a name")
                                                        : shown(page.content.show.name);
    draw_text(painter, {left, page.head.top() + 8, right - left - 16, 32}, {title_font(), page.colours.text},
              name);
    draw_text(painter, {left, page.head.top() + 40, right - left - 16, 20},
              {font(TypeSize::body), page.colours.text_soft}, subtitle(page));
}

void paint_legend(QPainter& painter, const PicturePage& page) {
    painter.fillRect(QRectF(0, page.legend.top(), page.legend.width(), 1), page.colours.rule);
    double x = paint_kinds(painter, page, PicturePage::margin);
    const Rig& rig = page.content.show.rig;
    if (std::ranges::find(rig.channels, ChannelKind::valve, &Channel::kind) != rig.channels.end()) {
        x = paint_line_entry(painter, page, x, travel_words(page.content.air),
                             page.colours.kind_edge(ChannelKind::valve));
        x = paint_line_entry(painter, page, x, QStringLiteral("receiver"), page.colours.pressure);
    }
    for (const Severity severity : severities) {
        x = paint_entry(painter, page, x, word_of(severity), [&](const QRectF& box) {
            paint_severity(painter, box, severity, page.colours.severity(severity));
        });
    }
    const double right = page.size.width() - PicturePage::margin;
    draw_text(painter, {x, page.legend.top(), std::max(right - x, 0.0), page.legend.height()},
              {font(TypeSize::small), page.colours.text_soft, Qt::AlignRight | Qt::AlignVCenter},
              QStringLiteral("A plan, no protection: stop, guarding and isolation are hardware."));
}

}  // namespace gasp
