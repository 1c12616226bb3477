// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/signs.hpp"
#include "ui/look/type.hpp"
#include "ui/sheet/picture_parts.hpp"
#include "ui/sheet/picture_text.hpp"

#include <QPainter>
#include <QStringList>

#include <algorithm>

namespace gasp {

namespace {

/// Findings whose pins would touch, as one.
struct Pin {
    double x = 0.0;
    Severity severity = Severity::note;
    std::vector<std::size_t> numbers;  ///< in the list, from 1
};

constexpr double pin_px = 16.0;
constexpr double pin_room_px = 48.0;

std::vector<Pin> pins_of(const PicturePage& page) {
    std::vector<Pin> pins;
    for (std::size_t index = 0; index < page.content.findings.size(); ++index) {
        const Finding& finding = page.content.findings[index];
        if (finding.place.time) {
            pins.push_back({page.x_of(*finding.place.time), finding.severity, {index + 1}});
        }
    }
    std::erase_if(pins, [&](const Pin& pin) { return pin.x < page.left() || pin.x > page.right(); });
    std::ranges::stable_sort(pins, {}, &Pin::x);
    std::vector<Pin> apart;
    for (const Pin& pin : pins) {
        if (apart.empty() || pin.x - apart.back().x > pin_room_px) {
            apart.push_back(pin);
            continue;
        }
        Pin& joined = apart.back();
        joined.severity = std::min(joined.severity, pin.severity);
        joined.numbers.insert(joined.numbers.end(), pin.numbers.begin(), pin.numbers.end());
    }
    return apart;
}

void paint_pin(QPainter& painter, const PicturePage& page, const Pin& pin) {
    const double middle = page.pins.center().y();
    painter.fillRect(QRectF(pin.x - 0.5, middle, 1, page.ruler.bottom() - middle),
                     page.colours.severity(pin.severity));
    paint_severity(painter, {pin.x - pin_px / 2, middle - pin_px / 2, pin_px, pin_px}, pin.severity,
                   page.colours.severity(pin.severity));
    QStringList numbers;
    for (const std::size_t number : pin.numbers) {
        numbers << QString::number(number);
    }
    const double left = pin.x + pin_px / 2 + 3;
    const double room = std::clamp(page.size.width() - left, 0.0, pin_room_px - pin_px);
    draw_text(painter, {left, page.pins.top(), room, page.pins.height()},
              {font(TypeSize::small, true), page.colours.severity_text(pin.severity)},
              numbers.join(QStringLiteral(", ")));
}

QString words_of(const Finding& finding) {
    QString text = shown(finding.what);
    if (!finding.figure.empty()) {
        text += ": " + shown(finding.figure);
    }
    if (!finding.limit.empty()) {
        text += ", limit " + shown(finding.limit);
    }
    return text + ". " + shown(finding.remedy);
}

void paint_line(QPainter& painter, const PicturePage& page, std::size_t index, const QRectF& line) {
    const Finding& finding = page.content.findings[index];
    const QFont body = font(TypeSize::body);
    paint_severity(painter, {line.left(), line.center().y() - 6.5, 13, 13}, finding.severity,
                   page.colours.severity(finding.severity));
    const TextStyle right{body, page.colours.text_soft, Qt::AlignRight | Qt::AlignVCenter};
    draw_text(painter, {line.left() + 20, line.top(), 24, line.height()}, right, QString::number(index + 1));
    const QString time =
        finding.place.time ? QString::fromStdString(print_time(*finding.place.time)) : QStringLiteral("rig");
    draw_text(painter, {line.left() + 52, line.top(), 92, line.height()}, right, time);
    draw_text(painter, {page.left(), line.top(), line.right() - page.left(), line.height()},
              {body, page.colours.text}, words_of(finding));
}

}  // namespace

void paint_findings(QPainter& painter, const PicturePage& page) {
    draw_text(painter, page.label_of(page.pins), {font(TypeSize::small), page.colours.text_soft},
              QStringLiteral("findings"));
    for (const Pin& pin : pins_of(page)) {
        paint_pin(painter, page, pin);
    }
    const std::size_t count = page.content.findings.size();
    if (count == 0 || page.style.bare) {
        return;
    }
    const std::size_t lines = std::min(count, PicturePage::most_listed + 1);
    const double height = 20.0;
    QRectF line(page.findings.left(), page.findings.bottom() - static_cast<double>(lines) * height,
                page.findings.width(), height);
    for (std::size_t index = 0; index < lines; ++index) {
        if (index == PicturePage::most_listed && count > lines) {
            draw_text(painter, {page.left(), line.top(), line.width(), height},
                      {font(TypeSize::body), page.colours.text_soft},
                      QStringLiteral("and %1 more").arg(count - index));
        } else {
            paint_line(painter, page, index, line);
        }
        line.translate(0, height);
    }
}

}  // namespace gasp
