// SPDX-License-Identifier: GPL-3.0-or-later
// SPDX-FileCopyrightText: The Gaspworks authors
#include "ui/look/drawn_style.hpp"

#include "tests/support/catch.hpp"
#include "ui/look/look.hpp"

#include <QApplication>
#include <QCheckBox>
#include <QImage>
#include <QPainter>
#include <QStyleOptionButton>

#include <algorithm>

using namespace gasp;

namespace {

constexpr int side = 16;

QImage drawn(QStyle::PrimitiveElement element, QStyle::State state) {
    const QCheckBox box;
    QImage image(side, side, QImage::Format_RGB32);
    image.fill(look().ground);
    QStyleOptionButton option;
    option.rect = image.rect();
    option.state = state;
    QPainter painter(&image);
    QApplication::style()->drawPrimitive(element, &option, &painter, &box);
    return image;
}

}  // namespace

// W3C, WCAG 2.1: 1.4.11 Non-text Contrast, 3:1, for what shows that something can be ticked, is, or has the
// focus.
TEST_CASE("a box to tick, its tick and the frame of the focus stand out from what is behind them") {
    for (const Theme theme : {Theme::light, Theme::dark}) {
        set_theme(theme);
        for (const auto box : {QStyle::PE_IndicatorCheckBox, QStyle::PE_IndicatorItemViewItemCheck}) {
            const QImage off = drawn(box, QStyle::State_Enabled | QStyle::State_Off);
            CHECK(contrast_ratio(off.pixelColor(0, side / 2), look().ground) >= 3.0);
            const QImage on = drawn(box, QStyle::State_Enabled | QStyle::State_On);
            double best = 0.0;
            for (int x = 3; x < side - 3; ++x) {
                best =
                    std::max(best, contrast_ratio(on.pixelColor(x, side / 2), off.pixelColor(x, side / 2)));
            }
            CHECK(best >= 3.0);
        }
        const QImage focus = drawn(QStyle::PE_FrameFocusRect, QStyle::State_Enabled | QStyle::State_HasFocus);
        CHECK(contrast_ratio(focus.pixelColor(0, side / 2), look().ground) >= 3.0);
    }
    set_theme(Theme::dark);
}
