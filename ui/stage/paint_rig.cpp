// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "core/units/rounded.hpp"
#include "ui/look/look.hpp"
#include "ui/look/signs.hpp"
#include "ui/stage/stage_paint.hpp"

#include <QFontMetricsF>
#include <QPainter>
#include <QRadialGradient>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace gasp {

namespace {

constexpr double sign_px = 16.0;
constexpr double contact_px = 34.0;
constexpr double narrow_contact_px = 24.0;
constexpr double word_px = 24.0;
constexpr double wide_row_px = 180.0;

QColor between(const QColor& from, const QColor& to, double share) {
    const auto mix = [share](int a, int b) { return a + static_cast<int>(std::lround(share * (b - a))); };
    return {mix(from.red(), to.red()), mix(from.green(), to.green()), mix(from.blue(), to.blue())};
}

/// A lamp's disc behind its rays, and the light around it.
void paint_lamp(QPainter& painter, const QRectF& box, double glow) {
    const Palette& p = look();
    const QPointF centre = box.center();
    if (glow > 0.01) {
        QRadialGradient light(centre, 20.0);
        QColor colour = p.lamp;
        colour.setAlphaF(static_cast<float>(0.65 * glow));
        light.setColorAt(0.25, colour);
        colour.setAlphaF(0.0F);
        light.setColorAt(1.0, colour);
        painter.setPen(Qt::NoPen);
        painter.setBrush(light);
        painter.drawEllipse(centre, 20.0, 20.0);
    }
    painter.setPen(QPen(p.rule_strong, 1.0));
    painter.setBrush(between(p.canvas, p.lamp, glow));
    painter.drawEllipse(centre, 8.5, 8.5);
    paint_kind(painter, box.adjusted(2, 2, -2, -2), ChannelKind::lamp, glow > 0.5 ? p.on_lamp : p.text_soft);
}

/// A contact as in a circuit diagram: the blade lies on when closed and stands off when open.
void paint_contact(QPainter& painter, const QRectF& box, bool closed) {
    const Palette& p = look();
    const double y = box.center().y() + 2.0;
    const double lead = box.width() / 4.0;
    const QPointF hinge(box.left() + lead, y);
    const QPointF seat(box.right() - lead, y);
    painter.setPen(QPen(closed ? p.text : p.text_soft, 1.4));
    painter.setBrush(Qt::NoBrush);
    painter.drawLine(QPointF(box.left(), y), hinge);
    painter.drawLine(seat, QPointF(box.right(), y));
    painter.setPen(QPen(closed ? p.brass : p.text_soft, 2.2, Qt::SolidLine, Qt::RoundCap));
    painter.drawLine(hinge, closed ? seat : QPointF(seat.x() - 2.0, y - 7.5));
    painter.setPen(Qt::NoPen);
    painter.setBrush(closed ? p.text : p.text_soft);
    painter.drawEllipse(hinge, 2.0, 2.0);
    painter.drawEllipse(seat, 2.0, 2.0);
}

QPointF on_dial(const QPointF& centre, double radius, double share) {
    const double angle = (225.0 - 270.0 * share) * std::numbers::pi / 180.0;
    return centre + radius * QPointF(std::cos(angle), -std::sin(angle));
}

void paint_dial_arc(QPainter& painter, const QPointF& centre, double radius, double from, double to) {
    const QRectF circle(centre.x() - radius, centre.y() - radius, 2.0 * radius, 2.0 * radius);
    painter.drawArc(circle, static_cast<int>((225.0 - 270.0 * to) * 16.0),
                    static_cast<int>(270.0 * (to - from) * 16.0));
}

/// Scale, the compressor's range, needle. The scale ends a little past cut-out.
void paint_dial(QPainter& painter, const QPointF& centre, double radius, const GaugeFace& face) {
    const Palette& p = look();
    const double top =
        std::max({face.cut_out_kpa_gauge.value_or(0.0), face.receiver_kpa_gauge.value_or(0.0), 100.0}) * 1.2;
    painter.setBrush(Qt::NoBrush);
    painter.setPen(QPen(p.rule_strong, 1.2));
    paint_dial_arc(painter, centre, radius, 0.0, 1.0);
    for (int i = 0; i <= 10; ++i) {
        const double inner = radius - (i % 5 == 0 ? 6.0 : 3.0);
        painter.drawLine(on_dial(centre, inner, i / 10.0), on_dial(centre, radius, i / 10.0));
    }
    if (face.cut_in_kpa_gauge && face.cut_out_kpa_gauge) {
        painter.setPen(QPen(p.pressure, 3.0, Qt::SolidLine, Qt::FlatCap));
        paint_dial_arc(painter, centre, radius - 2.0, *face.cut_in_kpa_gauge / top,
                       *face.cut_out_kpa_gauge / top);
    }
    if (face.receiver_kpa_gauge) {
        const double share = std::clamp(*face.receiver_kpa_gauge / top, 0.0, 1.0);
        painter.setPen(QPen(p.brass, 2.2, Qt::SolidLine, Qt::RoundCap));
        painter.drawLine(on_dial(centre, -5.0, share), on_dial(centre, radius - 7.0, share));
    }
    painter.setPen(Qt::NoPen);
    painter.setBrush(p.text);
    painter.drawEllipse(centre, 3.0, 3.0);
}

/// A driver seen from the side, with waves while it sounds.
void paint_driver(QPainter& painter, const QRectF& box, double share) {
    const Palette& p = look();
    const double y = box.center().y();
    const double x = box.left();
    painter.setPen(QPen(p.text, 1.4, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
    painter.setBrush(p.raised);
    painter.drawPolygon(QPolygonF{QPointF(x + 1, y - 5), QPointF(x + 7, y - 5), QPointF(x + 15, y - 12),
                                  QPointF(x + 15, y + 12), QPointF(x + 7, y + 5), QPointF(x + 1, y + 5)});
    painter.setBrush(Qt::NoBrush);
    for (int i = 0; i < 3; ++i) {
        const double radius = 8.0 + 5.0 * i;
        const bool heard = share > 0.25 * i + 0.05;
        painter.setPen(QPen(heard ? p.brass : p.rule, 1.8, Qt::SolidLine, Qt::RoundCap));
        painter.drawArc(QRectF(x + 13 - radius, y - radius, 2 * radius, 2 * radius), -35 * 16, 70 * 16);
    }
}

}  // namespace

void paint_text(QPainter& painter, const QRectF& box, int flags, const QString& text) {
    const QFontMetricsF metrics(painter.font());
    painter.drawText(box, flags | Qt::TextSingleLine, metrics.elidedText(text, Qt::ElideRight, box.width()));
}

void paint_channel(QPainter& painter, const QRectF& box, const StageChannel& channel) {
    const Palette& p = look();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const QRectF sign(box.left() + 2.0, box.center().y() - sign_px / 2.0, sign_px, sign_px);
    if (channel.kind == ChannelKind::lamp) {
        paint_lamp(painter, sign, channel.glow);
    } else {
        paint_kind(painter, sign, channel.kind, channel.load_on ? p.kind_edge(channel.kind) : p.text_soft);
    }
    double right = box.right() - 2.0;
    double contact = narrow_contact_px;
    if (box.width() > wide_row_px) {  // the contact's shape says it too
        painter.setFont(font(TypeSize::small, channel.load_on));
        painter.setPen(channel.load_on ? p.text : p.text_soft);
        const QRectF word(right - word_px, box.top(), word_px, box.height());
        paint_text(painter, word, Qt::AlignRight | Qt::AlignVCenter, channel.load_on ? "on" : "off");
        right -= word_px + 4.0;
        contact = contact_px;
    }
    paint_contact(painter, QRectF(right - contact, box.top(), contact, box.height()), channel.load_on);
    right -= contact + 4.0;
    painter.setFont(font(TypeSize::small));
    if (channel.contact == Contact::normally_closed) {
        painter.setPen(p.text_soft);
        paint_text(painter, QRectF(right - 20.0, box.top(), 20.0, box.height()),
                   Qt::AlignRight | Qt::AlignVCenter, "NC");
        right -= 22.0;
    }
    painter.setPen(p.text);
    const QRectF name(sign.right() + 8.0, box.top(), right - sign.right() - 8.0, box.height());
    paint_text(painter, name, Qt::AlignLeft | Qt::AlignVCenter, QString::fromStdString(channel.name));
    painter.restore();
}

void paint_gauge(QPainter& painter, const QRectF& box, const GaugeFace& face) {
    const Palette& p = look();
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double radius = std::min(box.height() / 2.0 - 2.0, box.width() * 0.22);
    paint_dial(painter, QPointF(box.left() + radius + 1.0, box.center().y() + 2.0), radius, face);
    const QRectF words(box.left() + 2.0 * radius + 10.0, box.top(), box.width() - 2.0 * radius - 10.0,
                       box.height());
    const double middle = words.center().y();
    painter.setFont(font(TypeSize::small));
    painter.setPen(p.text_soft);
    paint_text(painter, QRectF(words.left(), middle - 26.0, words.width(), 16.0), Qt::AlignLeft, "receiver");
    paint_text(painter, QRectF(words.left(), middle + 11.0, words.width(), 16.0), Qt::AlignLeft,
               face.filling ? "filling" : "");
    const QRectF value(words.left(), middle - 10.0, words.width(), 20.0);
    if (face.receiver_kpa_gauge) {
        painter.setFont(font(TypeSize::body, true));
        painter.setPen(p.text);
        const std::string reading =
            print_rounded(Quantity::gauge_pressure, *face.receiver_kpa_gauge, face.units);
        paint_text(painter, value, Qt::AlignLeft | Qt::AlignVCenter, QString::fromStdString(reading));
    } else {
        painter.setPen(p.warn_text);
        paint_text(painter, value, Qt::AlignLeft | Qt::AlignVCenter, "unknown");
    }
    painter.restore();
}

void paint_loudspeaker(QPainter& painter, const QRectF& box, double level, const QString& word) {
    const Palette& p = look();
    constexpr double floor_db = -48.0;
    const double db = level > 0.0 ? std::max(floor_db, 20.0 * std::log10(level)) : floor_db;
    const double share = 1.0 - db / floor_db;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    const double middle = box.center().y();
    paint_driver(painter, QRectF(box.left(), middle - 14.0, 34.0, 28.0), share);
    const QRectF bar(box.left() + 42.0, std::floor(middle - 8.0), box.width() - 42.0, 8.0);
    painter.setRenderHint(QPainter::Antialiasing, false);
    painter.fillRect(bar, p.canvas_soft);
    painter.fillRect(QRectF(bar.left(), bar.top(), bar.width() * share, bar.height()),
                     db > -1.0 ? p.warn : p.sound_core);
    painter.setPen(QPen(p.rule_strong, 1.0));
    painter.setBrush(Qt::NoBrush);
    painter.drawRect(bar);
    for (const double tick : {-36.0, -24.0, -12.0, -6.0}) {
        const double x = std::floor(bar.left() + bar.width() * (1.0 - tick / floor_db));
        painter.drawLine(QPointF(x, bar.bottom() + 1.0), QPointF(x, bar.bottom() + 4.0));
    }
    painter.setFont(font(TypeSize::small));
    painter.setPen(p.text_soft);
    paint_text(painter, QRectF(bar.left(), bar.top() - 18.0, bar.width(), 16.0), Qt::AlignLeft, word);
    paint_text(painter, QRectF(bar.left(), bar.bottom() + 4.0, bar.width(), 16.0), Qt::AlignRight,
               level > 0.0 ? QString("%1 dB").arg(db, 0, 'f', 0).replace('-', QChar(0x2212)) : QString());
    painter.restore();
}

}  // namespace gasp
