// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#pragma once

#include <QProxyStyle>

namespace gasp {

/// Fusion, with boxes to tick and the frame of the focus in colours of ours: Fusion shades both from the
/// ground, which on a dark one leaves them unseen.
class DrawnStyle : public QProxyStyle {
    Q_OBJECT

  public:
    DrawnStyle() : QProxyStyle("Fusion") {}

    void drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                       const QWidget* widget) const override;
};

}  // namespace gasp
