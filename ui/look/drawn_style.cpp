// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/drawn_style.hpp"

#include "ui/look/look.hpp"

#include <QCheckBox>
#include <QPainter>
#include <QStyleOption>

#include <algorithm>

namespace gasp {
namespace {

void draw_box(QPainter& painter, const QStyleOption& option) {
    const bool usable = option.state & QStyle::State_Enabled;
    const bool marked = option.state & (QStyle::State_HasFocus | QStyle::State_MouseOver);
    const int side = std::min(option.rect.width(), option.rect.height()) - 1;
    const QRectF box(option.rect.x() + 0.5, option.rect.y() + 0.5, side, side);
    painter.setPen(!usable ? look().rule : marked ? look().brass : look().rule_strong);
    painter.setBrush(look().canvas);
    painter.drawRect(box);
    const QColor ink = usable ? look().text : look().text_soft;
    if (option.state & QStyle::State_NoChange) {
        painter.fillRect(box.adjusted(3, 3, -3, -3), ink);
    } else if (option.state & QStyle::State_On) {
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen(ink, 2));
        const auto at = [&](double x, double y) { return box.topLeft() + QPointF(x, y) * side; };
        const QPointF tick[]{at(0.22, 0.52), at(0.42, 0.74), at(0.80, 0.24)};
        painter.drawPolyline(tick, 3);
    }
}

}  // namespace

void DrawnStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                               const QWidget* widget) const {
    painter->save();
    if (element == PE_IndicatorCheckBox || element == PE_IndicatorItemViewItemCheck) {
        draw_box(*painter, *option);
    } else if (element == PE_FrameFocusRect && qobject_cast<const QCheckBox*>(widget) != nullptr) {
        painter->setPen(look().brass);
        painter->drawRect(option->rect.adjusted(0, 0, -1, -1));
    } else {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
    }
    painter->restore();
}

}  // namespace gasp
